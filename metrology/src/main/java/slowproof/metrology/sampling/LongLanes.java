package slowproof.metrology.sampling;

import org.apache.commons.rng.UniformRandomProvider;

/**
 * Random bits by the hundred: generators xoshiro256++ (Blackman and Vigna 2021) side by side, one step of each at a
 * time. The steps of a single generator wait for each other; those of neighbours do not, so a processor takes several
 * in one instruction. Each lane begins at a state drawn from another generator; of a period of 2^256 the lanes use so
 * little that they do not meet.
 */
public final class LongLanes {
    /** Number of lanes, and of values that one step gives. */
    public static final int LANES = 256;

    private final long[] s0 = new long[LANES];
    private final long[] s1 = new long[LANES];
    private final long[] s2 = new long[LANES];
    private final long[] s3 = new long[LANES];

    /**
     * Starts every lane.
     *
     * @param random gives the states, four values each
     */
    public LongLanes(UniformRandomProvider random) {
        for (int i = 0; i < LANES; i++) {
            s0[i] = random.nextLong();
            s1[i] = random.nextLong();
            s2[i] = random.nextLong();
            s3[i] = random.nextLong();
        }
    }

    /**
     * Fills two arrays with the next two values of every lane.
     *
     * @param one takes the first values, {@link #LANES} long
     * @param two takes the second values, as long
     */
    public void next(long[] one, long[] two) {
        long[] a = s0;
        long[] b = s1;
        long[] c = s2;
        long[] d = s3;
        // every array is met at i alone and the steps are few: what lets the compiler take several lanes at once
        for (int i = 0; i < LANES; i++) {
            long s = a[i];
            long t = b[i];
            long u = c[i];
            long v = d[i];

            one[i] = Long.rotateLeft(s + v, 23) + s;
            long shifted = t << 17;
            u ^= s;
            v ^= t;
            t ^= u;
            s ^= v;
            u ^= shifted;
            v = Long.rotateLeft(v, 45);

            two[i] = Long.rotateLeft(s + v, 23) + s;
            shifted = t << 17;
            u ^= s;
            v ^= t;
            t ^= u;
            s ^= v;
            u ^= shifted;

            a[i] = s;
            b[i] = t;
            c[i] = u;
            d[i] = Long.rotateLeft(v, 45);
        }
    }
}
