package lookstep.server.paper;

import java.util.ArrayList;
import java.util.List;
import lookstep.server.plan.ShootPlan;
import lookstep.server.plan.Shot;

/** The shots in the order to be made. */
final class OrderPart {
    /** The words under it. */
    private static final double LEAST_WITH_HEADING = 28;

    private OrderPart() {}

    static void draw(Pages pages, Sheet sheet) {
        ShootPlan plan = sheet.plan();
        List<ShotBlock> blocks = new ArrayList<>();
        for (String id : sheet.order()) {
            Shot shot = plan.shot(id).orElseThrow();
            Double starts = sheet.startsAtSeconds().get(id);
            blocks.add(new ShotBlock(pages, plan, shot, blocks.size() + 1, starts));
        }
        double first = blocks.isEmpty() ? 0 : blocks.get(0).high();
        pages.heading("Running order", Math.min(LEAST_WITH_HEADING + first, pages.pageHeight()));
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
        blocks.forEach(ShotBlock::draw);
    }
}
