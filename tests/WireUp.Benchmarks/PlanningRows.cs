namespace WireUp.Benchmarks;

/// <summary>The rows of the table of plans in docs/performance.md, and the marks between which it stands. Tests hold the page against them.</summary>
internal static class PlanningRows
{
    internal const string Begin = "<!-- planning: begin, written by `dotnet run -c Release --project tests/WireUp.Benchmarks -- planning` -->";

    internal const string End = "<!-- planning: end -->";

    internal const string All = "**whole plan**";

    /// <summary>Stages, by the names under which a plan reports its progress.</summary>
    internal static IReadOnlyList<string> Stages { get; } =
        ["reversing sections", "frogs", "districts", "blocks", "feeders", "boosters, bus and wire", "accessories", "checking"];

    /// <summary>What is minimised.</summary>
    internal static IReadOnlyList<string> Objectives { get; } =
    [
        "reversing-sections", "reversing-gaps", "reversing-borders", "districts", "district-boundaries", "feeders", "boosters", "bus-metres", "bus-copper",
    ];
}
