/**
 * What is still to be made in the time that is left: plan and state become the running order's
 * items, the clock its window, and what the shots took its pace. Pure; must not know of pages,
 * outputs, or how an order is found.
 */
package lookstep.server.window;
