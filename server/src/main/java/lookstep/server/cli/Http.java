package lookstep.server.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/**
 * Where the pages are served.
 *
 * @param host a name or address of this machine; 0.0.0.0 is every address it has
 * @param port 0 is any free one
 */
public record Http(String host, int port) {
    /** Reads HOST:PORT, [IPv6]:PORT or PORT. */
    public static final class Reader implements ITypeConverter<Http> {
        @Override
        public Http convert(String text) {
            int colon = text.lastIndexOf(':');
            String host = colon < 0 ? "0.0.0.0" : text.substring(0, colon);
            if (host.startsWith("[") && host.endsWith("]")) {
                host = host.substring(1, host.length() - 1);
            }
            int port;
            try {
                port = Integer.parseInt(text.substring(colon + 1));
            } catch (NumberFormatException e) {
                throw wrong(text);
            }
            if (host.isEmpty() || port < 0 || port > 65535) {
                throw wrong(text);
            }
            return new Http(host, port);
        }

        private static TypeConversionException wrong(String text) {
            return new TypeConversionException(
                    "'"
                            + text
                            + "' is no HOST:PORT; write for example 0.0.0.0:8037 or 127.0.0.1:0");
        }
    }
}
