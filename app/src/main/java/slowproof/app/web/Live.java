package slowproof.app.web;

import io.javalin.http.sse.SseClient;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/** Tells everybody who watches a trial that it changed. Safe for use by several threads. */
final class Live implements AutoCloseable {
    private static final long SIGN_OF_LIFE_S = 20;

    private final Map<String, Set<SseClient>> watchers = new ConcurrentHashMap<>();
    private final ScheduledExecutorService heart = Executors.newSingleThreadScheduledExecutor(work -> {
        Thread thread = new Thread(work, "live");
        thread.setDaemon(true);
        return thread;
    });

    @SuppressWarnings("FutureReturnValueIgnored") // it ends with the program
    Live() {
        // a comment now and then finds the watchers that left without a word
        heart.scheduleWithFixedDelay(this::beat, SIGN_OF_LIFE_S, SIGN_OF_LIFE_S, TimeUnit.SECONDS);
    }

    void watch(String trial, SseClient client) {
        client.keepAlive();
        client.onClose(() -> watchers.getOrDefault(trial, Set.of()).remove(client));
        watchers.computeIfAbsent(trial, t -> ConcurrentHashMap.newKeySet()).add(client);
        client.sendComment("watching");
    }

    void changed(String trial, long seq) {
        // off the thread that acknowledges: a slow watcher must not keep a reading waiting
        heart.execute(() -> watchers.getOrDefault(trial, Set.of())
                .forEach(client -> client.sendEvent("changed", String.valueOf(seq))));
    }

    private void beat() {
        watchers.values().forEach(all -> all.forEach(client -> client.sendComment("")));
    }

    @Override
    public void close() {
        heart.shutdownNow();
        watchers.values().forEach(all -> all.forEach(SseClient::close));
    }
}
