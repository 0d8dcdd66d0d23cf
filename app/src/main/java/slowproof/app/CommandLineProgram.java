package slowproof.app;

import java.io.IOException;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import slowproof.trial.input.BadInputException;

/** Finds the command that the words name, runs it and turns what goes wrong into a message and an exit status. */
final class CommandLineProgram {
    private static final List<String> NAMES = List.of(
            "accounts", "demo", "export", "findings", "forecast", "import", "reply", "report", "serve", "verify");

    private final PrintStream out;
    private final PrintStream err;
    private final Console console;

    private CommandLineProgram(PrintStream out, PrintStream err) {
        this.out = out;
        this.err = err;
        this.console = new Console(out, err);
    }

    /**
     * Runs a command.
     *
     * @param arguments the words after the program's name
     * @param out where results go
     * @param err where messages go
     * @return exit status
     */
    static int run(String[] arguments, PrintStream out, PrintStream err) {
        return new CommandLineProgram(out, err).run(arguments);
    }

    private static @Nullable Command named(String name) {
        return switch (name) {
            case "accounts" -> new AccountsCommand();
            case "demo" -> new DemoCommand();
            case "export" -> new ExportCommand();
            case "findings" -> new FindingsCommand();
            case "forecast" -> new ForecastCommand();
            case "import" -> new ImportCommand();
            case "reply" -> new ReplyCommand();
            case "report" -> new ReportCommand();
            case "verify" -> new VerifyCommand();
            case "serve" -> new ServeCommand();
            default -> null;
        };
    }

    private int run(String[] arguments) {
        CommandLine program = new CommandLine(top());
        program.setCaseInsensitiveEnumValuesAllowed(true);
        Command wanted = arguments.length == 0 ? null : named(arguments[0]);
        // only the command that is asked for is built: the others would cost start-up time
        if (wanted != null) {
            program.getCommandSpec().addSubcommand(arguments[0], words(wanted));
        } else {
            for (String name : NAMES) {
                Command command = named(name);
                if (command != null) {
                    program.getCommandSpec().addSubcommand(name, words(command));
                }
            }
        }
        ParseResult parsed;
        try {
            parsed = program.parseArgs(arguments);
        } catch (ParameterException e) {
            return wrongWords(e);
        }
        ParseResult own = parsed.hasSubcommand() ? parsed.subcommand() : parsed;
        if (own.isUsageHelpRequested()) {
            own.commandSpec().commandLine().usage(out, Ansi.OFF);
            return ExitStatus.DONE;
        }
        if (wanted == null) {
            return withoutCommand(program, parsed);
        }
        return run(wanted, own);
    }

    private static CommandSpec words(Command command) {
        CommandSpec words = command.words();
        new CommandLine(words).setCaseInsensitiveEnumValuesAllowed(true);
        return words;
    }

    private static CommandSpec top() {
        CommandSpec top = CommandSpec.create().name("slowproof");
        top.usageMessage()
                .description("Will this non-contact length and speed sensor hold our length tolerance on our material,"
                        + " when our line creeps, stops and starts?")
                .synopsisSubcommandLabel("COMMAND")
                .optionListHeading("%nOptions:%n")
                .commandListHeading("%nCommands:%n")
                .footer("", "Begin with: ./slowproof demo --once");
        top.addOption(OptionSpec.builder("-h", "--help")
                .usageHelp(true)
                .description("Shows this help.")
                .build());
        return top.addOption(Words.flag("--version", "Shows version and commit."));
    }

    private int withoutCommand(CommandLine program, ParseResult parsed) {
        if (parsed.hasMatchedOption("--version")) {
            out.println("slowproof " + Program.build());
            return ExitStatus.DONE;
        }
        program.usage(err, Ansi.OFF);
        return ExitStatus.WRONG_INPUT;
    }

    private int run(Command command, ParseResult words) {
        try {
            Words.listen(words, console);
            return command.run(words, console);
        } catch (BadInputException e) {
            err.println(console.wording().problems(e.problems()).stripTrailing());
            return ExitStatus.WRONG_INPUT;
        } catch (InvalidPathException e) {
            err.println(console.wording().text("failure.path", e.getInput(), e.getReason()));
            return ExitStatus.WRONG_INPUT;
        } catch (IOException e) {
            return failed(e);
        } catch (UncheckedIOException e) {
            return failed(e);
        }
    }

    private int failed(Exception problem) {
        err.println(console.wording().text("failure.io", String.valueOf(problem.getMessage())));
        return ExitStatus.FAILED;
    }

    private int wrongWords(ParameterException problem) {
        String message = problem.getMessage();
        err.println(message == null ? "The words are not understood." : message);
        PrintWriter writer = new PrintWriter(err, false, StandardCharsets.UTF_8);
        UnmatchedArgumentException.printSuggestions(problem, writer);
        writer.flush();
        err.println("Try: ./" + problem.getCommandLine().getCommandSpec().qualifiedName() + " --help");
        return ExitStatus.WRONG_INPUT;
    }
}
