package slowproof.metrology.sampling;

import java.util.List;

/**
 * Input quantities that share one sensitivity index, because they depend on each other or belong together.
 *
 * @param name what the group is called
 * @param uniforms which numbers of a {@link UniformTransform} feed the group, from 0; at least one, none twice
 */
public record InputGroup(String name, List<Integer> uniforms) {

    /**
     * Copies the list.
     *
     * @throws IllegalArgumentException if it is empty or names a number twice
     */
    public InputGroup {
        uniforms = List.copyOf(uniforms);
        if (uniforms.isEmpty() || uniforms.stream().distinct().count() < uniforms.size()) {
            throw new IllegalArgumentException("group " + name + " needs its numbers, each once: " + uniforms);
        }
    }
}
