/**
 * Reads {@code *.shoot.yaml} into a {@link lookstep.server.plan.ShootPlan} and {@code
 * *.fixture.yaml} into a {@link lookstep.protocols.fixture.Fixture}, or says everything that is
 * wrong with them by line and column. Must not know what happens on the day, nor where a light's
 * slots go from here.
 */
package lookstep.server.plan.file;
