package slowproof.app.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import slowproof.archive.account.Account;
import slowproof.archive.account.AccountRefusedException;
import slowproof.archive.account.Accounts;
import slowproof.archive.account.Role;
import slowproof.wording.Wording;

/** One's own password, and, for those who may, the accounts of everybody. */
final class AccountsPage {
    private final Site site;
    private final @Nullable Door door;

    /**
     * Makes the pages.
     *
     * @param door where sessions begin; null when no log-in is needed
     */
    AccountsPage(Site site, @Nullable Door door) {
        this.site = site;
        this.door = door;
    }

    void install(RoutesConfig routes) {
        routes.get("/account", this::showOwn);
        routes.post("/account", this::changeOwn);
        routes.get("/accounts", context -> showAll(Visit.of(context), "", "", List.of()));
        routes.post("/accounts", this::add);
        routes.post("/accounts/{name}", this::change);
    }

    private Accounts accounts() {
        return site.archive().accounts();
    }

    private void showOwn(Context context) {
        if (!Reader.of(context).hasAccount()) {
            context.redirect("/accounts", HttpStatus.SEE_OTHER);
            return;
        }
        sendOwn(Visit.of(context), List.of(), false);
    }

    private void changeOwn(Context context) {
        Visit visit = Visit.of(context);
        Reader reader = Reader.of(context);
        String wanted = visit.field("new_password");
        List<Problem> problems = new ArrayList<>();
        Door there = door;
        Duration wait = there == null ? Duration.ZERO : there.attempt(context, reader.name());
        if (!wait.isZero()) {
            problems.add(new Problem("old_password", visit.wording().text("log_in.wait", wait.toMinutes() + 1)));
        } else if (accounts().check(reader.name(), visit.field("old_password")).isEmpty()) {
            problems.add(new Problem("old_password", visit.wording().text("account.wrong_old")));
        } else {
            if (there != null) {
                there.succeeded(context, reader.name());
            }
            if (!wanted.equals(visit.field("again"))) {
                problems.add(new Problem("again", visit.wording().text("account.not_the_same")));
            } else {
                attempt(visit, "new_password", problems, accounts -> accounts.setPassword(reader.name(), wanted));
            }
        }
        if (problems.isEmpty() && there != null) {
            // the change ended every session of the account; the person who made it stays
            accounts().find(reader.name()).ifPresent(account -> there.begin(context, account));
        }
        sendOwn(visit, problems, problems.isEmpty());
    }

    private void sendOwn(Visit visit, List<Problem> problems, boolean done) {
        Wording wording = visit.wording();
        site.send(
                visit,
                "account.jte",
                wording,
                "account",
                wording.text("account.title"),
                problems,
                Map.of("done", done));
    }

    private void add(Context context) {
        Visit visit = Visit.of(context);
        String name = visit.field("name").strip();
        Role role = Role.of(visit.field("role")).orElse(Role.READ);
        List<Problem> problems = new ArrayList<>();
        attempt(visit, "name", problems, accounts -> accounts.add(name, role, visit.field("password")));
        if (problems.isEmpty()) {
            visit.goTo("/accounts");
        } else {
            showAll(visit, name, role.key(), problems);
        }
    }

    /** One change at a time: role, password, closed or open. */
    private void change(Context context) {
        Visit visit = Visit.of(context);
        String name = context.pathParam("name");
        List<Problem> problems = new ArrayList<>();
        attempt(visit, "account-" + name, problems, accounts -> {
            switch (visit.field("what")) {
                case "role" ->
                    accounts.setRole(name, Role.of(visit.field("role")).orElse(Role.READ));
                case "password" -> accounts.setPassword(name, visit.field("password"));
                case "close" -> accounts.setClosed(name, true);
                case "open" -> accounts.setClosed(name, false);
                default -> context.status(HttpStatus.BAD_REQUEST);
            }
        });
        if (problems.isEmpty()) {
            visit.goTo("/accounts");
        } else {
            showAll(visit, "", "", problems);
        }
    }

    private void attempt(Visit visit, String field, List<Problem> problems, Consumer<Accounts> change) {
        try {
            change.accept(accounts());
        } catch (AccountRefusedException e) {
            String where = switch (e.why()) {
                case LENGTH, GUESSED -> field.equals("name") ? "password" : field;
                case NAME, TAKEN, UNKNOWN, LAST_ADMIN -> field;
            };
            problems.add(new Problem(
                    where, visit.wording().text("account.refused." + e.why().key())));
        }
    }

    private void showAll(Visit visit, String name, String role, List<Problem> problems) {
        Wording wording = visit.wording();
        List<Account> all = accounts().all();
        site.send(
                visit,
                "accounts.jte",
                wording,
                "accounts",
                wording.text("accounts.title"),
                problems,
                Map.of("accounts", all, "name", name, "role", role));
    }
}
