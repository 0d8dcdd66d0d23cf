package slowproof.files.log;

/** Lets threads do something one after another, in the order of their numbers, which begin with 0. Any threads. */
final class Turns {
    private long turn;
    private boolean over;

    /** Waits until it is the turn of a number; returns false when nobody's turn will come any more. */
    synchronized boolean await(long number) throws InterruptedException {
        while (turn != number && !over) {
            wait();
        }
        return !over;
    }

    /** Hands over to the next number. */
    synchronized void next() {
        turn++;
        notifyAll();
    }

    /** Ends it for all that wait, and all that come. */
    synchronized void end() {
        over = true;
        notifyAll();
    }

    /** Returns true once it was ended. */
    synchronized boolean over() {
        return over;
    }
}
