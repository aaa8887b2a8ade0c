package lookstep.server.plan.edit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.util.List;
import org.junit.jupiter.api.Test;

class DifferencesTest {
    private static final String PLAN =
            "{'title':'a','l':[{'name':'x','v':1,'g':{'s':-0.7}},{'name':'y'},{'id':'z','name':'y'}],"
                    + "'p':[1,2],'m':[[1,2],[3,4]]}";

    private static JsonNode json(String text) throws Exception {
        return JsonMapper.builder().build().readTree(text.replace('\'', '"'));
    }

    private static List<String> between(String was, String now) throws Exception {
        return Differences.between(json(was), json(now)).stream().map(Difference::words).toList();
    }

    private static List<String> after(String from, String to) throws Exception {
        return between(PLAN, PLAN.replace(from, to));
    }

    @Test
    void theSameHasNoDifferences() throws Exception {
        assertEquals(List.of(), between(PLAN, PLAN));
        assertEquals(List.of(), between("{'a':1,'b':2}", "{'b':2.0,'a':1}"));
    }

    @Test
    void placesAreNamedByNameAndId() throws Exception {
        assertEquals(List.of("l, x, g: s -0.7 is now -1"), after("-0.7", "-1"));
        assertEquals(List.of("title 'a' is now 'b'"), after("'title':'a'", "'title':'b'"));
        assertEquals(List.of("l, x: v is gone, it was 1"), after("'v':1,", ""));
        assertEquals(
                List.of("l, y: w is new: [1, 2]"),
                after("{'name':'y'},", "{'name':'y','w':[1,2]},"));
        assertEquals(List.of("l: y is gone, it was {name: y}"), after("{'name':'y'},", ""));
        assertEquals(List.of("l, y: name 'y' is now 'n'"), after("{'name':'y'},", "{'name':'n'},"));
        assertEquals(
                List.of("l: n is new: {name: n}"),
                after("{'name':'y'},", "{'name':'n'},{'name':'y'},"));
        assertEquals(List.of("p [1, 2] is now [1, 2, 3]"), after("'p':[1,2]", "'p':[1,2,3]"));
        assertEquals(List.of("m: entry 2 [3, 4] is now [3, 5]"), after("[3,4]", "[3,5]"));
    }

    @Test
    void anotherOrderIsToldOnce() throws Exception {
        assertEquals(
                List.of("l are now in the order z, y, x"),
                between(
                        "{'l':[{'name':'x'},{'name':'y'},{'id':'z'}]}",
                        "{'l':[{'id':'z'},{'name':'y'},{'name':'x'}]}"));
    }
}
