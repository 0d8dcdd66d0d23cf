package slowproof.report.answer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.color.ColorSpace;
import java.awt.color.ICC_ColorSpace;
import java.awt.color.ICC_Profile;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

class SrgbProfileTest {
    /** The judge is the platform's own sRGB, which comes from elsewhere. */
    @Test
    void coloursAreThoseOfThePlatformsSrgb() {
        ColorSpace ours = new ICC_ColorSpace(ICC_Profile.getInstance(SrgbProfile.bytes()));
        ColorSpace platform = ColorSpace.getInstance(ColorSpace.CS_sRGB);
        for (float red = 0; red <= 1; red += 0.25f) {
            for (float green = 0; green <= 1; green += 0.25f) {
                for (float blue = 0; blue <= 1; blue += 0.25f) {
                    float[] colour = {red, green, blue};
                    float[] wanted = platform.toCIEXYZ(colour);
                    float[] found = ours.toCIEXYZ(colour);
                    for (int i = 0; i < 3; i++) {
                        assertThat(found[i]).as("%s %s %s", red, green, blue).isCloseTo(wanted[i], within(0.002f));
                    }
                }
            }
        }
    }

    /** Seen alike on Java 17 and 25: nothing of it comes from the platform. */
    @Test
    void itsBytesAreAlwaysTheSame() throws Exception {
        assertThat(HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(SrgbProfile.bytes())))
                .isEqualTo("27bd83aa1e95c4688020b46370b1170b6e78b681ceb158cf2f46571455047fb1");
    }
}
