/**
 * The picture of a look before it is made: from plates where there are some, from the model
 * otherwise, and which of the two. Must not know of pages, nor of how plates are taken.
 */
package lookstep.server.pictured;
