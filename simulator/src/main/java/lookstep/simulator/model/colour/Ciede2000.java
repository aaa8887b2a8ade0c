package lookstep.simulator.model.colour;

/**
 * CIEDE2000 colour difference, parametric factors 1, as laid out by Sharma, Wu and Dalal, Color
 * Research and Application 30(1), 2005.
 */
public final class Ciede2000 {
    private static final double POW25_7 = Math.pow(25, 7);

    private Ciede2000() {}

    /** How different two colours look; 1 is about the least that is seen side by side. */
    public static double difference(Lab p, Lab q) {
        double meanChroma = (Math.hypot(p.a(), p.b()) + Math.hypot(q.a(), q.b())) / 2;
        double g = 0.5 * (1 - seventh(meanChroma));
        double a1 = (1 + g) * p.a();
        double a2 = (1 + g) * q.a();
        double c1 = Math.hypot(a1, p.b());
        double c2 = Math.hypot(a2, q.b());
        double h1 = hue(a1, p.b());
        double h2 = hue(a2, q.b());
        boolean grey = c1 * c2 == 0;

        double dl = q.lightness() - p.lightness();
        double dc = c2 - c1;
        double turn = grey ? 0 : h2 - h1;
        if (turn > 180) {
            turn -= 360;
        } else if (turn < -180) {
            turn += 360;
        }
        double dh = 2 * Math.sqrt(c1 * c2) * Math.sin(Math.toRadians(turn / 2));

        double l = (p.lightness() + q.lightness()) / 2;
        double c = (c1 + c2) / 2;
        double h = h1 + h2;
        if (!grey) {
            if (Math.abs(h1 - h2) > 180) {
                h += h < 360 ? 360 : -360;
            }
            h /= 2;
        }
        double t =
                1
                        - 0.17 * cos(h - 30)
                        + 0.24 * cos(2 * h)
                        + 0.32 * cos(3 * h + 6)
                        - 0.20 * cos(4 * h - 63);
        double l50 = (l - 50) * (l - 50);
        double sl = 1 + 0.015 * l50 / Math.sqrt(20 + l50);
        double sc = 1 + 0.045 * c;
        double sh = 1 + 0.015 * c * t;
        double rotation = 30 * Math.exp(-((h - 275) / 25) * ((h - 275) / 25));
        double rt = -Math.sin(Math.toRadians(2 * rotation)) * 2 * seventh(c);
        double x = dl / sl;
        double y = dc / sc;
        double z = dh / sh;
        return Math.sqrt(x * x + y * y + z * z + rt * y * z);
    }

    private static double seventh(double c) {
        double c7 = Math.pow(c, 7);
        return Math.sqrt(c7 / (c7 + POW25_7));
    }

    private static double hue(double a, double b) {
        if (a == 0 && b == 0) {
            return 0;
        }
        double h = Math.toDegrees(Math.atan2(b, a));
        return h < 0 ? h + 360 : h;
    }

    private static double cos(double degrees) {
        return Math.cos(Math.toRadians(degrees));
    }
}
