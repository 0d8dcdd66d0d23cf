package slowproof.trial.findings;

import java.math.BigDecimal;
import java.math.MathContext;

/** Names a condition in notes, without words of a language. */
final class Where {
    private Where() {}

    /** Returns for example "clear film, 63 mm/s, 500 mm/s², forward"; the direction both is left out. */
    static String of(Condition condition) {
        ConditionKey key = condition.key();
        StringBuilder text = new StringBuilder(key.material());
        if (!key.setup().isEmpty()) {
            text.append(", ").append(key.setup());
        }
        text.append(", ").append(plain(key.speedMmPerS())).append(" mm/s");
        Double acceleration = key.accelerationMmPerS2();
        if (acceleration != null) {
            text.append(", ").append(plain(acceleration)).append(" mm/s²");
        }
        if (condition.direction() != Direction.BOTH) {
            text.append(", ").append(condition.direction().key());
        }
        return text.toString();
    }

    /** Speeds found in recordings carry binary dust, which no speed that anybody meant has. */
    private static String plain(double value) {
        return BigDecimal.valueOf(value)
                .round(new MathContext(6))
                .stripTrailingZeros()
                .toPlainString();
    }
}
