package slowproof.files.in;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import slowproof.trial.input.BadInputException;
import slowproof.trial.input.ProblemCode;
import slowproof.trial.input.SourcePosition;

/**
 * A mapping of a YAML file that knows where each value is written. Getters note what is wrong with a value and
 * return null then, so that all problems of a file come out at once.
 */
final class YamlMap {
    private final String file;
    private final String path;
    private final SourcePosition at;
    private final Problems problems;
    private final Map<String, Node> values = new LinkedHashMap<>();
    private boolean strange;

    private YamlMap(String file, String path, MappingNode node, Problems problems, Set<String> known) {
        this.file = file;
        this.path = path;
        this.problems = problems;
        this.at = position(file, node, path);
        for (NodeTuple tuple : node.getValue()) {
            take(tuple, known);
        }
    }

    /**
     * Parses a file whose top is a mapping.
     *
     * @param raw the file
     * @param problems where to note problems
     * @param known keys that may occur
     * @throws BadInputException if the text is no YAML or its top is no mapping
     */
    static YamlMap parse(RawFile raw, Problems problems, Set<String> known) {
        Optional<Node> top;
        try {
            LoadSettings settings = LoadSettings.builder()
                    .setLabel(raw.name())
                    .setMaxAliasesForCollections(10)
                    .build();
            top = new Compose(settings).composeString(raw.text());
        } catch (MarkedYamlEngineException e) {
            throw BadInputException.of(
                    ProblemCode.YAML_SYNTAX,
                    e.getProblemMark()
                            .map(mark -> position(raw.name(), mark, ""))
                            .orElse(SourcePosition.ofFile(raw.name())),
                    String.valueOf(e.getProblem()));
        } catch (YamlEngineException e) {
            throw BadInputException.of(
                    ProblemCode.YAML_SYNTAX, SourcePosition.ofFile(raw.name()), String.valueOf(e.getMessage()));
        }
        if (top.isEmpty()) {
            throw BadInputException.of(ProblemCode.FILE_EMPTY, SourcePosition.ofFile(raw.name()));
        }
        if (!(top.get() instanceof MappingNode mapping)) {
            throw BadInputException.of(
                    ProblemCode.YAML_KIND, position(raw.name(), top.get(), ""), kind(top.get()), "key: value lines");
        }
        return new YamlMap(raw.name(), "", mapping, problems, known);
    }

    private void take(NodeTuple tuple, Set<String> known) {
        SourcePosition place = position(file, tuple.getKeyNode(), "");
        if (!(tuple.getKeyNode() instanceof ScalarNode scalar)) {
            problems.add(ProblemCode.YAML_KIND, place, kind(tuple.getKeyNode()), "a key");
            return;
        }
        String key = scalar.getValue();
        SourcePosition named = new SourcePosition(file, place.line(), place.column(), path + key);
        if (!key.isEmpty() && key.chars().allMatch(Character::isDigit)) {
            // {relative_pct: 0,15} is read as two keys
            problems.add(ProblemCode.DECIMAL_COMMA, named, key, ".");
        } else if (!known.contains(key)) {
            strange = true;
            problems.add(ProblemCode.UNKNOWN_KEY, named, key, Nearest.of(key, known));
        } else if (values.putIfAbsent(key, tuple.getValueNode()) != null) {
            problems.add(ProblemCode.KEY_TWICE, named, key);
        }
    }

    /** Returns whether it has a key that may not occur; that is noted already. */
    boolean strange() {
        return strange;
    }

    private static String kind(Node node) {
        if (node instanceof ScalarNode scalar) {
            return scalar.getValue();
        }
        return node instanceof SequenceNode ? "[list]" : "{mapping}";
    }

    private static SourcePosition position(String file, Node node, String field) {
        return node.getStartMark()
                .map(mark -> position(file, mark, field))
                .orElse(new SourcePosition(file, 0, 0, field));
    }

    private static SourcePosition position(String file, Mark mark, String field) {
        return new SourcePosition(file, mark.getLine() + 1L, mark.getColumn() + 1, field);
    }

    /** Returns where the mapping begins. */
    SourcePosition at() {
        return at;
    }

    /** Returns where a value is written; the mapping's own place when the key is absent. */
    SourcePosition at(String key) {
        Node node = values.get(key);
        return node == null
                ? new SourcePosition(at.file(), at.line(), at.column(), path + key)
                : position(file, node, path + key);
    }

    boolean has(String key) {
        return values.containsKey(key);
    }

    /** Notes a missing key; one with nothing behind it is missing too. */
    void require(String key) {
        if (!has(key) || (isScalar(key) && textOr(key, "").isEmpty())) {
            problems.add(ProblemCode.KEY_MISSING, at(key), key);
        }
    }

    @Nullable
    String text(String key) {
        Node node = values.get(key);
        if (node == null) {
            return null;
        }
        if (node instanceof ScalarNode scalar) {
            return scalar.getValue().strip();
        }
        problems.add(ProblemCode.YAML_KIND, at(key), kind(node), "a text");
        return null;
    }

    /** Returns a text with the blanks around it, or null. */
    @Nullable
    String rawText(String key) {
        return values.get(key) instanceof ScalarNode scalar ? scalar.getValue() : text(key);
    }

    boolean isScalar(String key) {
        return values.get(key) instanceof ScalarNode;
    }

    String textOr(String key, String otherwise) {
        String text = text(key);
        return text == null ? otherwise : text;
    }

    @Nullable
    Double number(String key) {
        String text = text(key);
        return text == null || text.isEmpty() ? null : number(text, at(key));
    }

    private @Nullable Double number(String text, SourcePosition place) {
        try {
            return Numerals.parse(text, '.');
        } catch (Numerals.NotFiniteException e) {
            problems.add(ProblemCode.NOT_FINITE, place, text);
        } catch (NumberFormatException e) {
            boolean comma = Numerals.readable(text, ',');
            problems.add(comma ? ProblemCode.DECIMAL_COMMA : ProblemCode.NOT_A_NUMBER, place, text, ".");
        }
        return null;
    }

    @Nullable
    Double positive(String key) {
        Double value = number(key);
        if (value != null && !(value > 0)) {
            problems.add(ProblemCode.NOT_POSITIVE, at(key), textOr(key, ""));
            return null;
        }
        return value;
    }

    @Nullable
    Double notNegative(String key) {
        Double value = number(key);
        if (value != null && !(value >= 0)) {
            problems.add(ProblemCode.NEGATIVE, at(key), textOr(key, ""));
            return null;
        }
        return value;
    }

    /** Returns true when the key says so; false when it says that or is absent. */
    boolean flag(String key) {
        String text = text(key);
        if (text != null && !text.equals("true") && !text.equals("false")) {
            problems.add(ProblemCode.UNKNOWN_CHOICE, at(key), text, "true, false");
        }
        return "true".equals(text);
    }

    /** Returns the constant that a word names, or null after noting the allowed words. */
    <E extends Enum<E>> @Nullable E choice(String key, Class<E> type) {
        String text = text(key);
        if (text == null) {
            return null;
        }
        List<String> allowed = new ArrayList<>();
        for (E constant : type.getEnumConstants()) {
            String word = constant.name().toLowerCase(Locale.ROOT);
            if (word.equals(text.toLowerCase(Locale.ROOT))) {
                return constant;
            }
            allowed.add(word);
        }
        problems.add(ProblemCode.UNKNOWN_CHOICE, at(key), text, String.join(", ", allowed));
        return null;
    }

    @Nullable
    YamlMap map(String key, Set<String> known) {
        Node node = values.get(key);
        if (node == null) {
            return null;
        }
        if (node instanceof MappingNode mapping) {
            return new YamlMap(file, path + key + ".", mapping, problems, known);
        }
        problems.add(ProblemCode.YAML_KIND, at(key), kind(node), "key: value lines");
        return null;
    }

    /** Returns the mappings of a list; a single mapping counts as a list of one. */
    List<YamlMap> maps(String key, Set<String> known) {
        List<YamlMap> maps = new ArrayList<>();
        int number = 1;
        for (Node node : items(key)) {
            if (node instanceof MappingNode mapping) {
                maps.add(new YamlMap(file, path + key + "[" + number + "].", mapping, problems, known));
            } else {
                problems.add(ProblemCode.YAML_KIND, position(file, node, path + key), kind(node), "key: value lines");
            }
            number++;
        }
        return maps;
    }

    /** Returns the numbers of a list, none of them zero; a single number counts as a list of one, null when the key is absent. */
    @Nullable
    List<Double> numbers(String key) {
        if (!has(key)) {
            return null;
        }
        List<Double> numbers = new ArrayList<>();
        for (Node node : items(key)) {
            SourcePosition place = position(file, node, path + key);
            if (node instanceof ScalarNode scalar) {
                Double value = number(scalar.getValue().strip(), place);
                if (value != null && value == 0) {
                    problems.add(ProblemCode.NOT_POSITIVE, place, scalar.getValue());
                } else if (value != null) {
                    numbers.add(value);
                }
            } else {
                problems.add(ProblemCode.YAML_KIND, place, kind(node), "a number");
            }
        }
        return numbers;
    }

    /** Returns the texts of a list; a single text counts as a list of one. */
    List<String> texts(String key) {
        List<String> texts = new ArrayList<>();
        for (Node node : items(key)) {
            if (node instanceof ScalarNode scalar) {
                texts.add(scalar.getValue().strip());
            } else {
                problems.add(ProblemCode.YAML_KIND, position(file, node, path + key), kind(node), "a text");
            }
        }
        return texts;
    }

    private List<Node> items(String key) {
        Node node = values.get(key);
        if (node == null) {
            return List.of();
        }
        return node instanceof SequenceNode sequence ? sequence.getValue() : List.of(node);
    }
}
