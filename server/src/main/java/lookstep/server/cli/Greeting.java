package lookstep.server.cli;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What is printed when a shoot is open: the links, and the code for the tablet. */
public final class Greeting {
    private Greeting() {}

    /**
     * The words.
     *
     * @param first what is being served, a line
     * @param http as asked for
     * @param port as it came to be
     * @param crewKey opens next and set
     * @param bandKey opens the pictures
     * @param colours whether the terminal takes colours
     */
    public static String words(
            String first, Http http, int port, String crewKey, String bandKey, boolean colours) {
        String tablet = address(http.host(), port);
        String band = tablet + "/open/" + bandKey;
        StringBuilder text = new StringBuilder();
        text.append(first).append("\n\n");
        text.append("  assistant     ")
                .append(tablet)
                .append("/open/")
                .append(crewKey)
                .append("\n");
        text.append("  photographer  ")
                .append(tablet)
                .append("/open/")
                .append(crewKey)
                .append("?page=set\n");
        text.append("  band's tablet ").append(band).append("\n\n");
        text.append(QrText.of(band, colours));
        List<String> others = otherAddresses(http.host());
        if (!others.isEmpty()) {
            text.append(
                            "\nThis machine has other addresses too, if the tablet is in another network: ")
                    .append(String.join(", ", others))
                    .append("\n");
        }
        text.append(
                "\nThe code is for the band's tablet: pictures only. The other two links are for the crew alone.\n");
        text.append("Stop with Ctrl-C; the same command goes on where it was.\n");
        return text.toString();
    }

    /**
     * What is to be typed into the menus of cameras that upload.
     *
     * @param port of FTP; empty if none is taken
     * @param passwords by the camera's name
     */
    public static String uploads(Optional<Integer> port, Map<String, String> passwords) {
        if (port.isEmpty()) {
            return "";
        }
        StringBuilder text = new StringBuilder();
        text.append("\nCameras upload over FTP to ")
                .append(String.join(" or ", addresses()))
                .append(", port ")
                .append(port.get())
                .append(":\n");
        passwords.forEach(
                (name, word) ->
                        text.append("  user ")
                                .append(name)
                                .append("   password ")
                                .append(word)
                                .append('\n'));
        return text.toString();
    }

    private static String address(String host, int port) {
        if (!everywhere(host)) {
            return "http://" + (host.contains(":") ? "[" + host + "]" : host) + ":" + port;
        }
        List<String> here = addresses();
        return "http://" + (here.isEmpty() ? "127.0.0.1" : here.get(0)) + ":" + port;
    }

    private static List<String> otherAddresses(String host) {
        List<String> here = addresses();
        return everywhere(host) && here.size() > 1 ? here.subList(1, here.size()) : List.of();
    }

    private static boolean everywhere(String host) {
        return host.equals("0.0.0.0") || host.equals("::");
    }

    /**
     * Addresses of this machine that a tablet on the same network can reach, private ones first.
     */
    static List<String> addresses() {
        List<InetAddress> found = new ArrayList<>();
        try {
            for (NetworkInterface card :
                    Collections.list(NetworkInterface.getNetworkInterfaces())) {
                if (card.isUp() && !card.isLoopback()) {
                    found.addAll(Collections.list(card.getInetAddresses()));
                }
            }
        } catch (SocketException noCards) {
            return List.of();
        }
        return found.stream()
                .filter(a -> a instanceof Inet4Address && !a.isLinkLocalAddress())
                .sorted((a, b) -> Boolean.compare(b.isSiteLocalAddress(), a.isSiteLocalAddress()))
                .map(InetAddress::getHostAddress)
                .toList();
    }
}
