namespace WireUp.Benchmarks;

/// <summary>A row of the table in docs/performance.md.</summary>
/// <param name="Name">What is measured.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Grows">Whether a growth exponent makes sense.</param>
internal sealed record PerformanceRow(string Name, string Unit, bool Grows = true);

/// <summary>The rows of the table in docs/performance.md, and the marks between which it stands. Tests hold the page against them.</summary>
internal static class PerformanceRows
{
    internal const string Begin = "<!-- table: begin, written by `dotnet run -c Release --project tests/WireUp.Benchmarks -- performance` -->";

    internal const string End = "<!-- table: end -->";

    internal static readonly PerformanceRow Nodes = new("nodes", "", Grows: false);
    internal static readonly PerformanceRow Unknowns = new("unknowns", "", Grows: false);
    internal static readonly PerformanceRow Assemble = new("assemble the equations", "ms");
    internal static readonly PerformanceRow Order = new("order, lay out the factor", "ms");
    internal static readonly PerformanceRow Factor = new("factor", "ms");
    internal static readonly PerformanceRow Select = new("selected inverse", "ms");
    internal static readonly PerformanceRow Places = new("every place, inverse included", "ms");
    internal static readonly PerformanceRow Whole = new("**all of it: assemble, order, factor, every place**", "ms");
    internal static readonly PerformanceRow Solve = new("one solution", "ms");
    internal static readonly PerformanceRow Many = new("64 right-hand sides, each", "ms");
    internal static readonly PerformanceRow Map = new("what-if, whole map", "ms");
    internal static readonly PerformanceRow General = new("what-if, any element, volts at 5 places", "µs", Grows: false);
    internal static readonly PerformanceRow Prepared = new("what-if, any element, volts at 5 places prepared", "µs", Grows: false);
    internal static readonly PerformanceRow Joints = new("every joint opened in turn, 5 places prepared", "ms");
    internal static readonly PerformanceRow Report = new("whole report, from the graph of rails", "ms");
    internal static readonly PerformanceRow Memory = new("live memory of all of it at its end", "B a piece", Grows: false);
    internal static readonly PerformanceRow Peak = new("peak memory of the whole report over its input", "B a piece", Grows: false);
    internal static readonly PerformanceRow Simulator = new("ngspice, analysis time of one `.op`", "ms");
    internal static readonly PerformanceRow Ratio = new("**ngspice / all of it**", "×", Grows: false);
    internal static readonly PerformanceRow PreparedRatio = new("factor / what-if prepared", "×", Grows: false);
    internal static readonly PerformanceRow GeneralRatio = new("factor / what-if not prepared", "×", Grows: false);
    internal static readonly PerformanceRow SelectRatio = new("factor / selected inverse", "×", Grows: false);

    internal static IReadOnlyList<PerformanceRow> All { get; } =
    [
        Nodes, Unknowns, Assemble, Order, Factor, Select, Places, Whole, Solve, Many, Map, General, Prepared, Joints, Report,
        Memory, Peak, Simulator, Ratio, PreparedRatio, GeneralRatio, SelectRatio,
    ];
}
