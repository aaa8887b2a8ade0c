/**
 * Reads {@code *.shoot.yaml} into a {@link lookstep.server.plan.ShootPlan}, or says everything that
 * is wrong with it by line and column. Must not know what happens on the day, nor where a light's
 * slots go from here.
 */
package lookstep.server.plan.file;
