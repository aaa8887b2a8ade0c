/**
 * Pictures that a camera sends by itself: an FTP server (RFC 959, over TLS as RFC 4217 says) into
 * which each camera may put files, and from which nobody gets any. Must not know what a picture is,
 * what the shoot does with it, or the pages.
 */
package lookstep.server.ftp;
