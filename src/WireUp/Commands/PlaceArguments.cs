using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Files;
using WireUp.Layouts;

namespace WireUp.Commands;

/// <summary>Reads what was typed behind <c>--load</c> and <c>--probe</c>.</summary>
internal static class PlaceArguments
{
    /// <summary>Options of the circuit with those loads and probes.</summary>
    /// <exception cref="InputRefused">A place or current cannot be read.</exception>
    public static PowerOptions Options(Layout layout, IEnumerable<string> loads, IEnumerable<string> probes) => new()
    {
        Loads = [.. loads.Select(text => Load(layout, text))],
        Probes = [.. probes.Select(text => Read(layout, text, "--probe").Place!.Value)],
    };

    private static PlacedLoad Load(Layout layout, string text)
    {
        TypedPlace typed = Read(layout, text, "--load");
        return typed.Current is { } current
            ? new(typed.Place!.Value, current)
            : throw new InputRefused($"--load '{text}' names no current; expected a place and a current, such as 'loop@1 m=0.5 A'");
    }

    private static TypedPlace Read(Layout layout, string text, string option)
    {
        TypedPlace typed = TypedPlace.Read(layout, text, option);
        ImmutableArray<LayoutProblem> problems = typed.Problems;
        return problems.IsEmpty
            ? typed
            : throw new InputRefused($"{option} '{text}': {problems[0].Message}; expected {problems[0].Expected}");
    }
}
