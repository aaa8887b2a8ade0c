/**
 * The plan file while it is being shot: looked at for changes from outside, edited from the pages,
 * and checked beside the shoot. Must not know how an edit finds its place in the text, nor how
 * pages are served.
 */
package lookstep.server.desk;
