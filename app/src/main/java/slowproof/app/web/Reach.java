package slowproof.app.web;

import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.UnknownHostException;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Where the pages can be reached.
 *
 * @param host address or name of this machine to listen on
 * @param port port, 0 to 65535; 0 for any free one
 * @param reachedAs address that people type, https or http, when it is not that of this machine alone; null otherwise
 */
public record Reach(String host, int port, @Nullable URI reachedAs) {
    static final String LOOPBACK = "127.0.0.1";

    /** This machine alone. */
    public static Reach here(int port) {
        return new Reach(LOOPBACK, port, null);
    }

    /**
     * Returns what was asked for.
     *
     * @param host address of this machine; null for this machine alone
     * @param port port; null for the usual one
     * @param reachedAs address that others type; null when nobody else comes
     * @throws ServerRefusedException if the address that others type is none
     */
    public static Reach of(@Nullable String host, @Nullable Integer port, @Nullable String reachedAs) {
        try {
            return new Reach(
                    Objects.requireNonNullElse(host, LOOPBACK),
                    Objects.requireNonNullElse(port, Server.DEFAULT_PORT),
                    reachedAs == null ? null : new URI(reachedAs));
        } catch (URISyntaxException e) {
            throw new ServerRefusedException("refused.address", String.valueOf(reachedAs));
        }
    }

    /**
     * Refuses what cannot be served.
     *
     * @throws ServerRefusedException if the host is none of this machine, it can be reached from elsewhere and nobody said as
     *     what, or port or address do not exist
     */
    void check() {
        if (port < 0 || port > 65_535) {
            throw new ServerRefusedException("refused.port_range", port);
        }
        if (reachedAs == null) {
            if (!isLoopback()) {
                throw new ServerRefusedException("refused.reached_as", host);
            }
        } else if (!Set.of("http", "https").contains(String.valueOf(reachedAs.getScheme()))
                || reachedAs.getHost() == null
                || !Set.of("", "/").contains(reachedAs.getPath())) {
            throw new ServerRefusedException("refused.address", reachedAs);
        }
    }

    /** Returns true when others than the person at this machine may come, so that accounts are needed. */
    boolean isOpen() {
        return reachedAs != null;
    }

    /** Returns true when what is sent is encrypted on its way. */
    public boolean isSecure() {
        return reachedAs != null && "https".equals(reachedAs.getScheme());
    }

    /** Returns the names that a request may be addressed to, with their port. */
    Set<String> hosts(int actualPort) {
        return reachedAs == null
                ? Set.of("127.0.0.1:" + actualPort, "localhost:" + actualPort, "[::1]:" + actualPort)
                : Set.of(reachedAs.getRawAuthority().toLowerCase(Locale.ROOT));
    }

    /** Returns how the origin of a page begins. */
    String scheme() {
        return isSecure() ? "https://" : "http://";
    }

    private boolean isLoopback() {
        try {
            for (InetAddress address : InetAddress.getAllByName(host)) {
                if (!address.isLoopbackAddress()) {
                    return false;
                }
            }
            return true;
        } catch (UnknownHostException e) {
            throw new ServerRefusedException("refused.host_unknown", host);
        }
    }
}
