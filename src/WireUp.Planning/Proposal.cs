using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>What kind of thing a proposal adds.</summary>
public enum ProposalKind
{
    /// <summary>A gap in one or both rails.</summary>
    Gap,

    /// <summary>A reversing section with its device.</summary>
    ReversingSection,

    /// <summary>A power district with its breaker.</summary>
    District,

    /// <summary>A booster.</summary>
    Booster,

    /// <summary>A supply for a booster.</summary>
    Supply,

    /// <summary>A feeder.</summary>
    Feeder,

    /// <summary>A run of bus.</summary>
    BusRun,

    /// <summary>A changeover contact for a frog.</summary>
    FrogContact,

    /// <summary>A change of something that is built.</summary>
    Rework,

    /// <summary>A terminal strip for each leg where several wires of the bus meet.</summary>
    TerminalStrip,

    /// <summary>A switch that gives a block to one cab or to none.</summary>
    Selector,
}

/// <summary>The words of <see cref="ProposalKind"/>.</summary>
public static class ProposalKinds
{
    /// <summary>What stands over a list of proposals of a kind.</summary>
    public static string Heading(this ProposalKind kind) => kind switch
    {
        ProposalKind.Gap => "Gaps",
        ProposalKind.ReversingSection => "Reversing sections",
        ProposalKind.District => "Districts",
        ProposalKind.Booster => "Boosters",
        ProposalKind.Supply => "Supplies",
        ProposalKind.Feeder => "Feeders",
        ProposalKind.BusRun => "Bus",
        ProposalKind.FrogContact => "Frogs on contacts",
        ProposalKind.Rework => "Changes of what is built",
        ProposalKind.TerminalStrip => "Terminal strips",
        ProposalKind.Selector => "Selectors of blocks",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of proposal"),
    };
}

/// <summary>One thing that <c>plan</c> suggests adding.</summary>
/// <param name="Id">Stable name, also the label on the bench: <c>gap-3</c>, <c>f12</c>.</param>
/// <param name="Kind">What it is.</param>
/// <param name="At">Where, in the words of the layout file.</param>
/// <param name="Reason">Why, with the numbers put in, in words a builder understands.</param>
/// <param name="Rule">The rule of the trade it follows, with its source or "common practice, no published source".</param>
/// <param name="Cost">What it costs in the planner's own units: 1 for a gap of one rail, more for devices.</param>
public sealed record Proposal(string Id, ProposalKind Kind, string At, string Reason, string Rule, double Cost)
{
    /// <summary>The formula with the numbers put in, one line a step; empty where there is nothing to calculate.</summary>
    public ImmutableArray<string> Working { get; init; } = [];

    /// <summary>What else was weighed and why it lost, a sentence or two each; empty where nothing else was.</summary>
    public ImmutableArray<string> Alternatives { get; init; } = [];

    /// <summary>The same with the lengths of its sentences in a person's units; the place keeps to the words of the layout file.</summary>
    internal Proposal Told(Layout layout) => this with
    {
        Reason = layout.Retell(Reason),
        Working = [.. Working.Select(layout.Retell)],
        Alternatives = [.. Alternatives.Select(layout.Retell)],
    };

    /// <summary>Whether this is the proposal of a gap.</summary>
    public bool AsksFor(Gap gap)
    {
        string place = gap.At.ToString()!;
        return Kind == ProposalKind.Gap
            && (At == place || (At.StartsWith(place + "/", StringComparison.Ordinal) && Sides(gap).Contains(At[(place.Length + 1)..])));
    }

    private static IEnumerable<string> Sides(Gap gap) => gap.Rails switch
    {
        RailSet.Left => ["left", "centre"],
        RailSet.Right => ["right", "running"],
        _ => ["both"],
    };
}

/// <summary>How good one part of the plan is and how good it could be at best.</summary>
/// <param name="Name">What was minimised: <c>reversing-sections</c>, <c>feeders</c>, <c>districts</c>, …</param>
/// <param name="Value">What the plan needs.</param>
/// <param name="Bound">No plan can do with less than this, within the candidates considered.</param>
public sealed record Objective(string Name, double Value, double Bound)
{
    /// <summary>Whether the plan is proved the best.</summary>
    public bool IsOptimal => Value - Bound < 1e-6;
}
