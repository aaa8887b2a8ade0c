package lookstep.server.plan.edit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.List;
import lookstep.server.plan.file.DemoShoot;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Edits and the text that an author would have written. Quotes in JSON are single here. */
// line by line: where a line ends, and how, is what is tested
@SuppressWarnings("StringConcatToTextBlock")
class PlanDocumentTest {
    private static final JsonMapper JSON = JsonMapper.builder().build();

    private static JsonNode json(String text) {
        try {
            return JSON.readTree(text.replace('\'', '"'));
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(text, e);
        }
    }

    private static PlanDocument edited(String text, String... edits) throws EditRefused {
        PlanDocument out = PlanDocument.of(text);
        for (Edit edit : Edit.read(json("[" + String.join(", ", edits) + "]"))) {
            out = out.apply(edit);
        }
        return out;
    }

    private static void becomes(String before, String after, String... edits) throws EditRefused {
        assertEquals(after, edited(before, edits).text());
    }

    private static String set(String path, String was, String value) {
        return "{'op':'set','path':" + path + ",'was':" + was + ",'value':" + value + "}";
    }

    private static String remove(String path, String was) {
        return "{'op':'remove','path':" + path + ",'was':" + was + "}";
    }

    private static String insert(String path, String where, String value) {
        return "{'op':'insert','path':" + path + "," + where + "'value':" + value + "}";
    }

    /**
     * A value that is set, and how it is written. YAML 1.1 and 1.2: what needs quotes in either.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "'plain'       | plain",
                "'two words'   | two words",
                "'8 min'       | 8 min",
                "'1/100'       | 1/100",
                "'v, away'     | v, away",
                "'it`s'        | it`s",
                "'a:b'         | a:b",
                "'a#b'         | a#b",
                "'17:30'       | \"17:30\"",
                "'12:30:45'    | \"12:30:45\"",
                "'1.70'        | \"1.70\"",
                "'1e3'         | \"1e3\"",
                "'0x1F'        | \"0x1F\"",
                "'0o17'        | \"0o17\"",
                "'1_000'       | \"1_000\"",
                "'2026-05-01'  | \"2026-05-01\"",
                "'yes'         | \"yes\"",
                "'No'          | \"No\"",
                "'on'          | \"on\"",
                "'OFF'         | \"OFF\"",
                "'y'           | \"y\"",
                "'true'        | \"true\"",
                "'null'        | \"null\"",
                "'~'           | \"~\"",
                "''            | \"\"",
                "'+1'          | \"+1\"",
                "'-x'          | \"-x\"",
                "'a: b'        | \"a: b\"",
                "'a:'          | \"a:\"",
                "'a #b'        | \"a #b\"",
                "'#x'          | \"#x\"",
                "'[x]'         | \"[x]\"",
                "' x'          | \" x\"",
                "'x '          | \"x \"",
                "1.7           | 1.7",
                "1.70000001    | 1.7",
                "0.30000000000000004 | 0.3",
                "-0.7          | -0.7",
                "100           | 100",
                "100.0         | 100",
                "-0.003        | -0.003",
                "1e-5          | 0.00001",
                "25e8          | 2500000000",
                "true          | true",
                "[1, 2.50]     | [1, 2.5]",
                "{'f': 8, 'time': '1/100'} | {f: 8, time: 1/100}",
                "['a, b', 'c'] | [\"a, b\", c]",
                "[]            | []",
                "{}            | {}"
            })
    void quotesStandWhereTheyAreNeeded(String value, String written) throws EditRefused {
        JsonNode node = json(value.replace("`", "\\u0027"));
        String expected = written.replace('`', '\'');
        PlanDocument out =
                PlanDocument.of("a: old   # why\nb: 2\n")
                        .apply(new Edit.Set(PlanPath.of("a"), json("'old'"), node));
        assertEquals("a: " + expected + "   # why\nb: 2\n", out.text());
        assertEquals(
                true, Numbers.same(Numbers.asWritten(node), Witness.json(out.text()).get("a")));
    }

    @Test
    void theDemoSaysWhatThePlanReaderReads() throws EditRefused {
        PlanDocument demo = PlanDocument.of(DemoShoot.text());
        assertEquals(true, Numbers.same(Witness.json(DemoShoot.text()), demo.toJson()));
        assertEquals(
                json("-0.7"),
                demo.at(
                        PlanPath.of(
                                json("['looks', {'name': 'safe'}, 'lights', 'fill', 'stops']"))));
    }

    @Test
    void signsStandWhereNeighboursHaveThem() throws EditRefused {
        String text = "l:\n  a: {stops: +0.5}\n  b: {stops: -1}\n  c: {percent: 5}\np: [1, -2]\n";
        becomes(
                text,
                "l:\n  a: {stops: +1}\n  b: {stops: +0.3}\n  c: {percent: 7}\np: [1, 2]\n",
                set("['l','a','stops']", "0.5", "1"),
                set("['l','b','stops']", "-1", "0.3"),
                set("['l','c','percent']", "5", "7"),
                set("['p',1]", "-2", "2"));
    }

    @Test
    void newPartsLookLikeTheirNeighbours() throws EditRefused {
        becomes(
                "looks:\n"
                        + "  - name: a   # first\n"
                        + "    lights:\n"
                        + "      key: {percent: 100}\n\n"
                        + "  - name: b\n"
                        + "    lights:\n"
                        + "      key: {percent: 50}\n\n"
                        + "# shots\n"
                        + "shots: []\n",
                "looks:\n  - name: a   # first\n    lights:\n      key: {percent: 100}\n"
                        + "      rim: {stops: -1}\n\n"
                        + "  - name: b\n    lights:\n      key: {percent: 50}\n\n"
                        + "  - name: c\n    fade: 0\n    lights:\n      key: {percent: 10}\n"
                        + "\n# shots\nshots:\n  - name: x\n",
                set("['looks',{'name':'a'},'lights','rim']", "null", "{'stops':-1}"),
                insert("['looks']", "", "{'name':'c','fade':0,'lights':{'key':{'percent':10}}}"),
                insert("['shots']", "", "{'name':'x'}")
                        .replace("{'name':'x'}", "{'name':'x','a':[[1]]}"),
                remove("['shots',0,'a']", "[[1]]"));
    }

    @Test
    void listsThatAreNotIndentedStaySo() throws EditRefused {
        becomes(
                "a:\n- name: x\n  v: [1]\nb: 1\n",
                "a:\n"
                        + "- name: new\n"
                        + "  v: [2, 3]\n"
                        + "- name: x\n"
                        + "  v: [1]\n"
                        + "b: 1\n"
                        + "c:\n"
                        + "- name: k\n"
                        + "  w: {x: {}}\n",
                insert("['a']", "'before':{'name':'x'},", "{'name':'new','v':[2,3]}"),
                set("['c']", "null", "[{'name':'k','w':{'x':{}}}]"));
    }

    @Test
    void whatIsRemovedTakesItsCommentsAlong() throws EditRefused {
        String text =
                "# stays\n\n"
                        + "# of a\n"
                        + "a: 1   # of a too\n\n"
                        + "list:\n"
                        + "  # of x\n"
                        + "  - x   # also x\n"
                        + "    # farther in: x\n"
                        + "  # of y\n"
                        + "  - y\n\n"
                        + "  # alone, stays\n\n"
                        + "  - z\n"
                        + "b: 2\n";
        becomes(
                text,
                "# stays\n\nlist:\n  # of y\n  - y\n\n  # alone, stays\n\n  - z\nb: 2\n",
                remove("['a']", "1"),
                remove("['list',0]", "'x'"));
        becomes(
                "l:\n  - name: a   # one\n    v: 1   # two\n    # above w\n    w: 2\n",
                "l:\n  -\n    # above w\n    w: 2\n",
                remove("['l',0,'name']", "'a'"),
                remove("['l',0,'v']", "1"));
        becomes(
                "a: {x: 1, y: 2, z: 3}   # c\n",
                "a: {y: 2}   # c\n",
                remove("['a','x']", "1"),
                remove("['a','z']", "3"));
        becomes("a:   # c\n  x: 1   # d\nb: 1\n", "a: {}   # c\nb: 1\n", remove("['a','x']", "1"));
    }

    @Test
    void whatIsMovedTakesItsCommentsAlong() throws EditRefused {
        becomes(
                "l:\n  # of a\n  - a   # a\n\n  # of b\n  - b\n\n  - c   # c",
                "l:\n  - c   # c\n\n  # of a\n  - a   # a\n\n  # of b\n  - b",
                "{'op':'move','path':['l',2],'to':0,'was':'c'}");
        becomes(
                "l: [\n  a,   # a\n  # of b\n  b   # b\n]\n",
                "l: [\n  # of b\n  b,   # b\n  a   # a\n]\n",
                "{'op':'move','path':['l',0],'to':1,'was':'a'}");
        becomes(
                "l: [a, {n: 1}, 'c']\n",
                "l: ['c', a, {n: 1}]\n",
                "{'op':'move','path':['l',2],'to':0,'was':'c'}");
    }

    @Test
    void whatIsDuplicatedTakesItsCommentsAlong() throws EditRefused {
        becomes(
                "l:\n  # of a\n  - name: a   # name\n    v: 1.70   # v\n\n  - name: b\n",
                "l:\n  # of a\n  - name: a   # name\n    v: 1.70   # v\n\n"
                        + "  # of a\n  - name: copy   # name\n    v: 1.70   # v\n\n  - name: b\n",
                "{'op':'duplicate','path':['l',{'name':'a'}],'was':{'name':'a','v':1.7},"
                        + "'changed':{'name':'copy'}}");
        becomes(
                "l:\n  - {name: a, v: 1}   # a",
                "l:\n  - {name: a, v: 1}   # a\n  - {name: b}   # a",
                "{'op':'duplicate','path':['l',0],'was':{'name':'a','v':1},"
                        + "'changed':{'name':'b','v':null}}");
    }

    @Test
    void missingGroupsOnTheWayAreMade() throws EditRefused {
        becomes(
                "looks:\n  - name: a   # c\n    lights: {}\n",
                "looks:\n"
                        + "  - name: a   # c\n"
                        + "    lights:\n"
                        + "      key: {percent: 5}\n"
                        + "    camera: {f: 8}\n",
                set("['looks',0,'camera','f']", "null", "8"),
                set("['looks',0,'lights','key','percent']", "null", "5"));
        becomes("a:   # c\nb: 1\n", "a: {x: 1}   # c\nb: 1\n", set("['a','x']", "null", "1"));
    }

    @Test
    void lettersOfTwoCharsMoveNothing() throws EditRefused {
        becomes(
                "\uFEFFa: \uD83D\uDE00   # \uD83D\uDE00\nb: [\uD83D\uDE00, 1]   # c\nd: é\n",
                "\uFEFFa: \uD83D\uDE00   # \uD83D\uDE00\n"
                        + "b: [\uD83D\uDE00, 2]   # c\n"
                        + "d: \uD83E\uDD41\n",
                set("['b',1]", "1", "2"),
                set("['d']", "'é'", "'\uD83E\uDD41'"));
    }

    @Test
    void onlyWhatDiffersInAGroupIsWritten() throws EditRefused {
        becomes(
                "a:\n  x: 1.50   # x\n  y: 0x10   # y\n  z: 3\n",
                "a:\n  x: 1.50   # x\n  y: 17   # y\n  w: new\n",
                set("['a']", "{'x':1.5,'y':16,'z':3}", "{'y':17,'w':'new','x':1.5}"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "{'op':'set','path':['l',{'name':'z'},'v'],'was':1,'value':2}"
                        + "|l has no entry with the name 'z'",
                "{'op':'set','path':['l',{'name':'d'},'v'],'was':1,'value':2}"
                        + "|l has 2 entries with the name 'd'",
                "{'op':'set','path':['l',7],'was':1,'value':2}|l has no entry 8, it ends with 3",
                "{'op':'set','path':['l','v'],'was':1,'value':2}|l is a list, so it has no 'v'",
                "{'op':'set','path':['t','v'],'was':1,'value':2}"
                        + "|t is no group of keys, so it has no 'v'",
                "{'op':'set','path':['t'],'was':'other','value':2}"
                        + "|t is now 'x', and was 'other' when you began",
                "{'op':'set','path':['u'],'was':1,'value':2}"
                        + "|u is gone, and was 1 when you began",
                "{'op':'set','path':['u'],'value':'\\uD800'}|the text has half a letter in it",
                "{'op':'remove','path':['u'],'was':1}|u: there is no 'u'",
                "{'op':'insert','path':['t'],'value':1}|t is 'x', no list",
                "{'op':'insert','path':['l'],'at':4,'value':1}|l has 3 entries, no place 4",
                "{'op':'move','path':['l',0],'was':{'name':'a','v':1},'to':3}"
                        + "|l has 3 entries, no place 3",
                "{'op':'move','path':['t'],'was':'x','to':0}|t is no entry of a list",
                "{'op':'set','path':[],'was':1,'value':2}|the whole plan cannot be replaced"
            })
    void whatDoesNotFitIsRefusedByPlace(String edit, String what) {
        String text = "t: x\nl:\n  - {name: a, v: 1}\n  - {name: d}\n  - {name: d, v: 2}\n";
        EditRefused refused = assertThrows(EditRefused.class, () -> edited(text, edit));
        assertEquals(what, refused.what());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{'op':'paint','path':[]}",
                "{'op':'set','value':1}",
                "{'op':'set','path':'title','value':1}",
                "{'op':'set','path':[{'a':1,'b':2}],'value':1}",
                "{'op':'set','path':[-1],'value':1}",
                "{'op':'insert','path':['l'],'at':1,'after':0,'value':1}",
                "{'op':'duplicate','path':['l',0],'was':1}",
                "{}",
                "7"
            })
    void whatIsNoEditIsRefused(String edit) {
        EditRefused refused =
                assertThrows(EditRefused.class, () -> Edit.read(json("[" + edit + "]")));
        assertEquals("edit 1 cannot be read", refused.what().substring(0, 21));
    }

    @Test
    void editsComeBackFromJsonAsTheyWere() throws Exception {
        PlanPath path = PlanPath.of("l", 2, new Step.Choice("name", "x"), "v");
        List<Edit> edits =
                List.of(
                        new Edit.Set(path, json("1"), json("{'a':[1]}")),
                        new Edit.Remove(path, json("'x'")),
                        new Edit.Insert(path, json("1")),
                        new Edit.Insert(path, 3, json("1")),
                        new Edit.Insert(path, null, json("{'name':'y'}"), null, json("1")),
                        new Edit.Move(path, 3, json("1")),
                        new Edit.Duplicate(path, json("1"), json("{'name':'y'}").deepCopy()));
        String written =
                JSON.writerFor(
                                JSON.getTypeFactory()
                                        .constructCollectionType(List.class, Edit.class))
                        .writeValueAsString(edits);
        assertEquals(edits, Edit.read(JSON.readTree(written)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "a: &x 1\nb: *x\n",
                "a: !t 1\n",
                "? a\n: 1\n",
                "a: [b: 1]\n",
                "a: 1\na: 2\n",
                "a: 1\n---\nb: 2\n",
                "a: 'x\n",
                ""
            })
    void whatPlansDoNotHaveIsNotEdited(String text) {
        assertThrows(EditRefused.class, () -> PlanDocument.of(text));
    }
}
