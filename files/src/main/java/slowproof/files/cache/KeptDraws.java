package slowproof.files.cache;

import java.io.DataInputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.DoubleBuffer;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;
import slowproof.trial.curve.DrawStore;

/** Draws of error curves in the folder of kept files: eight bytes a number, the least first. */
public final class KeptDraws implements DrawStore {
    /** The last bit of an exponential is the machine's, and draws grow it. */
    private static final String MACHINE = System.getProperty("os.arch") + " " + System.getProperty("java.vm.version");

    private final CacheFolder cache;

    /** Keeps draws in a cache. */
    public KeptDraws(CacheFolder cache) {
        this.cache = cache;
    }

    @Override
    public double @Nullable [] find(double[] from) {
        return cache.get(name(from), channel -> {
            try (DataInputStream in = Checked.read(channel)) {
                DoubleBuffer numbers = ByteBuffer.wrap(in.readAllBytes())
                        .order(ByteOrder.LITTLE_ENDIAN)
                        .asDoubleBuffer();
                double[] drawn = new double[numbers.remaining()];
                numbers.get(drawn);
                return drawn;
            }
        });
    }

    @Override
    public void keep(double[] from, double[] drawn) {
        byte[] bytes = bytes(drawn);
        cache.put(name(from), channel -> Checked.write(channel, out -> out.write(bytes)));
    }

    private String name(double[] from) {
        String numbers = HexFormat.of().formatHex(CacheFolder.sha256().digest(bytes(from)));
        return CacheFolder.key("draws/1", cache.program(), MACHINE, numbers) + ".draws";
    }

    private static byte[] bytes(double[] numbers) {
        byte[] bytes = new byte[Double.BYTES * numbers.length];
        ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).asDoubleBuffer().put(numbers);
        return bytes;
    }
}
