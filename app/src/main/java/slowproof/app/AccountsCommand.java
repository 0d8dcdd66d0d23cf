package slowproof.app;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.Charset;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;
import slowproof.archive.Archive;
import slowproof.archive.account.Account;
import slowproof.archive.account.AccountRefusedException;
import slowproof.archive.account.Accounts;
import slowproof.archive.account.Role;
import slowproof.wording.Wording;

/** Lists, adds and changes the accounts of an archive. A password is never a word of the command: those can be seen. */
final class AccountsCommand implements Command {
    private static final List<String> DEEDS = List.of("list", "add", "password", "role", "close", "open");

    @Override
    public CommandSpec words() {
        CommandSpec spec = Words.speaking(Words.command(
                "accounts",
                "./slowproof accounts add jo --role admin",
                "Accounts of those who reach the pages from other machines.",
                "The password is asked for, or read as the first line of the standard input."));
        spec.addPositional(PositionalParamSpec.builder()
                .paramLabel("list|add|password|role|close|open")
                .index("0")
                .type(String.class)
                .required(false)
                .description("What to do.")
                .build());
        spec.addPositional(PositionalParamSpec.builder()
                .paramLabel("NAME")
                .index("1")
                .type(String.class)
                .required(false)
                .description("Name of the account.")
                .build());
        spec.addOption(Words.text("--role", "ROLE", "Role: read, bench or admin."));
        return Serving.addPlace(spec);
    }

    @Override
    public int run(ParseResult words, Console console) throws IOException {
        Wording wording = console.wording().withPages();
        String deed = words.matchedPositionalValue(0, "");
        String name = words.matchedPositionalValue(1, "");
        String roleWord = Words.textOf(words, "--role");
        Role role = roleWord == null ? null : Role.of(roleWord).orElse(null);
        String missing = missing(deed, name, role, wording);
        if (missing != null) {
            console.err().println(missing);
            return ExitStatus.WRONG_INPUT;
        }
        try (Archive archive = Archive.open(Serving.place(words), Clock.systemUTC())) {
            return run(archive.accounts(), deed, name, role, wording, console);
        }
    }

    private static @Nullable String missing(String deed, String name, @Nullable Role role, Wording wording) {
        if (!DEEDS.contains(deed)) {
            return wording.text("accounts.what");
        }
        if (!deed.equals("list") && name.isEmpty()) {
            return wording.text("accounts.no_name", deed);
        }
        return role == null && (deed.equals("add") || deed.equals("role")) ? wording.text("accounts.no_role") : null;
    }

    private static int run(
            Accounts accounts, String deed, String name, @Nullable Role role, Wording wording, Console console)
            throws IOException {
        if (deed.equals("list")) {
            accounts.all().forEach(account -> console.out().println(line(account, wording)));
            return ExitStatus.DONE;
        }
        try {
            if (deed.equals("add") || deed.equals("password")) {
                String password = password(name, wording, console);
                if (password == null) {
                    return ExitStatus.WRONG_INPUT;
                }
                if (role != null && deed.equals("add")) {
                    accounts.add(name, role, password);
                } else {
                    accounts.setPassword(name, password);
                }
            } else if (role != null && deed.equals("role")) {
                accounts.setRole(name, role);
            } else {
                accounts.setClosed(name, deed.equals("close"));
            }
        } catch (AccountRefusedException e) {
            console.err()
                    .println(wording.text(
                            "accounts.refused",
                            name,
                            wording.text("account.refused." + e.why().key())));
            return ExitStatus.WRONG_INPUT;
        }
        accounts.find(name).ifPresent(account -> console.out().println(line(account, wording)));
        return ExitStatus.DONE;
    }

    private static String line(Account account, Wording wording) {
        return wording.text(
                account.closed() ? "accounts.line_closed" : "accounts.line",
                account.name(),
                wording.text("role." + account.role().key()),
                DateTimeFormatter.ISO_LOCAL_DATE.withZone(ZoneOffset.UTC).format(account.addedAt()));
    }

    /** Asks at a terminal, twice and without showing it; otherwise reads a line. Null when there is none to use. */
    private static @Nullable String password(String name, Wording wording, Console console) throws IOException {
        // older Java has no console when only the output goes elsewhere
        Optional<java.io.Console> terminal =
                Optional.ofNullable(System.console()).filter(found -> Console.asks());
        if (terminal.isEmpty()) {
            // not closed: the stream belongs to the program
            String line = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset())).readLine();
            if (line == null || line.isEmpty()) {
                console.err().println(wording.text("accounts.no_password"));
                return null;
            }
            return line;
        }
        char[] first = terminal.get().readPassword("%s ", wording.text("accounts.ask", name));
        char[] again = terminal.get().readPassword("%s ", wording.text("accounts.ask_again"));
        if (first == null || again == null) {
            console.err().println(wording.text("accounts.no_password"));
            return null;
        }
        if (!Arrays.equals(first, again)) {
            console.err().println(wording.text("account.not_the_same"));
            return null;
        }
        return new String(first);
    }
}
