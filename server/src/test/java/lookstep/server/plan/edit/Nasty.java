package lookstep.server.plan.edit;

import java.util.LinkedHashMap;
import java.util.Map;
import lookstep.server.plan.file.DemoShoot;

/** Files that are all good YAML and all awkward to edit. */
final class Nasty {
    private static final String SMALL =
            """
            # first line

            a: 1   # one
            b: {x: 1, y: [1, 2, 3], z: {deep: {deeper: 1}}}   # flow
            # above c
            c:
              - {name: p, v: 1}   # p
              # above q
              - {name: q, v: 2}
                # behind q
              - {name: r, v: 3}
            d:
              k: text   # text

              l: "quoted # no comment"
              # above m
              m: 'single'
              # last of d
            e: last   # e
            """;

    private static final String NOT_INDENTED =
            """
            ---
            list:
            - name: one
              v: 1
            # above two
            - name: two   # two
              # above v
              v: 2
            - name: three
              sub:
              - 1
              - 2   # two
              # behind
              more: {}
            empty: []
            none:
            nothing: {}
            deep:
                four:
                    eight: 1
                    twelve: [a, b]
            """;

    private static final String MANY_LINES =
            """
            flow: {
              one: 1,   # one
              # above two
              two: {a: 1, b: 2},

              three: [x, y]   # three
            }
            list: [
              alpha,
              beta,   # b
              gamma,
            ]
            mixed: [1, 2,   # after two
              3, {k: v}, [a, [b]]]   # end
            """;

    private static final String LETTERS =
            """
            "quoted key": é   # ä
            '😀': {'🎸': "🥁 🥁", 名: 値}   # 😀😀
            list:
              - 😀
              - "a: b # c"   # 🎸
              - 'it''s'
            text: |
              # no comment
              two lines 😀

            folded: >-
              folded
              text
            # above plain
            plain: many
              lines of   # behind
            end: 😀
            """;

    private static final String DASHES =
            """
            rows:
              - - 1
                - 2   # two
              - - 3
              -   # nothing but this
                - 4
              -
                name: x
                v: 1
            items:
              - name: a   # a

                v: 1
              # above b

              - name: b
                sub: {k: [1]}
                lights:
                  key: {percent: 100}

                  # above rim
                  rim: {stops: +0.5}   # rim
              # end of items

            tail: 1\
            """;

    private Nasty() {}

    static Map<String, String> all() {
        Map<String, String> out = new LinkedHashMap<>();
        out.put("demo", DemoShoot.text());
        out.put("small", SMALL);
        out.put("not indented", NOT_INDENTED);
        out.put("many lines", MANY_LINES);
        out.put("letters", LETTERS);
        out.put("dashes", DASHES);
        out.put("windows", DemoShoot.text().replace("\n", "\r\n"));
        out.put("small windows", SMALL.replace("\n", "\r\n"));
        out.put("byte order mark", "\uFEFF" + SMALL);
        out.put("no end of line", SMALL.strip());
        out.put("one line", "{a: 1, b: [1, 2], c: {d: e}}");
        return out;
    }
}
