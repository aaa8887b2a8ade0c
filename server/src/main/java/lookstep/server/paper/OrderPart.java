package lookstep.server.paper;

import lookstep.server.plan.ShootPlan;

/** The shots in the order to be made. */
final class OrderPart {
    private OrderPart() {}

    static void draw(Pages pages, Sheet sheet) {
        ShootPlan plan = sheet.plan();
        pages.heading("Running order", 150);
        pages.paragraph(
                Face.PLAIN,
                8.5,
                0,
                "Drawings from above, the camera below, its distance not to scale. People from left"
                        + " to right as the camera sees them. Tick the box when it is in the bag."
                        + (sheet.startsAtSeconds().isEmpty()
                                ? ""
                                : " Times are estimates, from the start of the window."));
        pages.down(4);
        int number = 1;
        for (String id : sheet.order()) {
            new ShotBlock(
                            pages,
                            plan,
                            plan.shot(id).orElseThrow(),
                            number++,
                            sheet.startsAtSeconds().get(id))
                    .draw();
        }
    }
}
