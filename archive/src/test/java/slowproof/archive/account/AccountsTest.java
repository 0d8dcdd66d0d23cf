package slowproof.archive.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.HexFormat;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import slowproof.archive.Archive;
import slowproof.archive.ArchivePlace;

class AccountsTest {
    private static final String GOOD = "felt and film at noon";

    @TempDir
    Path folder;

    private ArchivePlace place;

    /** Returns a place that holds no archive yet. */
    ArchivePlace place() {
        return new ArchivePlace.Folder(folder);
    }

    private Archive open() {
        if (place == null) {
            place = place();
        }
        return Archive.open(place, Clock.systemUTC());
    }

    /** RFC 9106, clause 5.3: test vector of Argon2id. */
    @Test
    void theGeneratorGivesTheTagOfTheStandard() {
        Argon2Parameters parameters = new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
                .withVersion(Argon2Parameters.ARGON2_VERSION_13)
                .withMemoryAsKB(32)
                .withIterations(3)
                .withParallelism(4)
                .withSalt(filled(16, 2))
                .withSecret(filled(8, 3))
                .withAdditional(filled(12, 4))
                .build();
        byte[] tag = new byte[32];
        Argon2BytesGenerator generator = new Argon2BytesGenerator();
        generator.init(parameters);
        generator.generateBytes(filled(32, 1), tag);
        assertThat(HexFormat.of().formatHex(tag))
                .isEqualTo("0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
    }

    private static byte[] filled(int length, int value) {
        byte[] bytes = new byte[length];
        Arrays.fill(bytes, (byte) value);
        return bytes;
    }

    /** Hash of the reference program of Argon2 (its test.c; from memory): password, somesalt, 2 passes, 64 MiB, 1 lane. */
    @Test
    void aHashMadeElsewhereIsUnderstood() {
        String hash = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
        assertThat(PasswordHash.matches("password", hash)).isTrue();
        assertThat(PasswordHash.matches("Password", hash)).isFalse();
    }

    @Test
    void onlyTheRightPasswordOfAnOpenAccountFits() {
        try (Archive archive = open()) {
            Accounts accounts = archive.accounts();
            accounts.add("jo", Role.ADMIN, GOOD);
            accounts.add("kim", Role.BENCH, "aluminium in the evening");
            assertThat(accounts.check("jo", GOOD)).map(Account::role).contains(Role.ADMIN);
            assertThat(accounts.check("jo", GOOD + " ")).isEmpty();
            assertThat(accounts.check("kim", GOOD)).isEmpty();
            assertThat(accounts.check("nobody", GOOD)).isEmpty();
            accounts.setClosed("kim", true);
            assertThat(accounts.check("kim", "aluminium in the evening")).isEmpty();
            accounts.setClosed("kim", false);
            assertThat(accounts.check("kim", "aluminium in the evening")).isPresent();
        }
    }

    @Test
    void anAccentTypedInTwoWaysIsTheSamePassword() {
        try (Archive archive = open()) {
            Accounts accounts = archive.accounts();
            accounts.add("jo", Role.ADMIN, "Messger\u00e4t am Montag");
            assertThat(accounts.check("jo", "Messgera\u0308t am Montag")).isPresent();
        }
    }

    @Test
    void everyChangeTellsSessionsThatTheyAreOver() {
        try (Archive archive = open()) {
            Accounts accounts = archive.accounts();
            accounts.add("jo", Role.ADMIN, GOOD);
            accounts.add("kim", Role.ADMIN, "aluminium in the evening");
            Account before = accounts.find("kim").orElseThrow();
            accounts.setRole("kim", Role.READ);
            Account between = accounts.find("kim").orElseThrow();
            accounts.setPassword("kim", "clear film before dawn");
            Account after = accounts.find("kim").orElseThrow();
            assertThat(between.changedAt()).isAfter(before.changedAt());
            assertThat(after.changedAt()).isAfter(between.changedAt());
            assertThat(after.role()).isEqualTo(Role.READ);
        }
    }

    @Test
    void somebodyMustBeLeftWhoMayChangeAccounts() {
        try (Archive archive = open()) {
            Accounts accounts = archive.accounts();
            accounts.add("jo", Role.ADMIN, GOOD);
            assertThatThrownBy(() -> accounts.setClosed("jo", true)).hasMessage("last_admin");
            assertThatThrownBy(() -> accounts.setRole("jo", Role.BENCH)).hasMessage("last_admin");
            assertThatThrownBy(() -> accounts.add("jo", Role.READ, GOOD)).hasMessage("taken");
            assertThatThrownBy(() -> accounts.add("jo doe", Role.READ, GOOD)).hasMessage("name");
            assertThatThrownBy(() -> accounts.setRole("no-one", Role.READ)).hasMessage("unknown");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "aaaaaaaaaaaa",
                "abcabcabcabc",
                "123456789012",
                "qwertyuiop123",
                "qwertzuiopasdf",
                "password1234",
                "i-am-Jolanda-2026"
            })
    void passwordsThatAreTriedFirstAreRefused(String password) {
        assertThatThrownBy(() -> PasswordRule.check("jolanda", password))
                .as(password)
                .hasMessage("guessed");
    }

    @Test
    void theLengthOfAPasswordIsBounded() {
        assertThatThrownBy(() -> PasswordRule.check("jo", "eleven sign")).hasMessage("length");
        assertThatThrownBy(() -> PasswordRule.check("jo", "ab c".repeat(33))).hasMessage("length");
        PasswordRule.check("jo", "twelve signs");
        PasswordRule.check("jo", "long phrase ".repeat(10) + "of words");
    }
}
