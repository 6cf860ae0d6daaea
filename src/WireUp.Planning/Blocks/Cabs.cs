using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Blocks;

/// <summary>
/// The cabs of a direct-current railway that asks for blocks and has no feeder yet. It is planned as for its first cab alone; then every
/// other cab gets the same bus and the same feeders, and selectors say whose current a block has.
/// </summary>
/// <param name="Whole">The layout as given.</param>
/// <param name="First">The first cab.</param>
/// <param name="Others">The others, in the order of the layout.</param>
internal sealed record Cabs(Layout Whole, Booster First, ImmutableArray<Booster> Others)
{
    /// <summary>The cabs of a layout; null where there is nothing to select.</summary>
    public static Cabs? Of(Layout layout)
    {
        Wiring wiring = layout.Wiring;
        if (layout.Control != ControlSystem.Direct || layout.Wishes.Blocks is null || !wiring.Feeders.IsEmpty || !wiring.Buses.IsEmpty)
        {
            return null;
        }

        Booster[] cabs = [.. wiring.Boosters.Where(booster => wiring.Districts.All(district => district.Booster != booster.Name))];
        return cabs.Length > 1 ? new(layout, cabs[0], [.. cabs[1..]]) : null;
    }

    /// <summary>The layout with its first cab only.</summary>
    public Layout WithFirst => With(Whole.Wiring with { Boosters = [.. Whole.Wiring.Boosters.Except(Others)] });

    /// <summary>The cabs' names, in their order.</summary>
    public ImmutableArray<string> Names => [First.Name, .. Others.Select(cab => cab.Name)];

    /// <summary>A draft of <see cref="WithFirst"/> as one of the whole layout.</summary>
    public PlanDraft Restore(PlanDraft draft) => draft with { Before = Whole, Layout = Restore(draft.Layout) };

    /// <summary>The layout with the other cabs put back where they stand in the file.</summary>
    public Layout Restore(Layout layout) => layout with
    {
        Wiring = layout.Wiring with { Boosters = [.. Whole.Wiring.Boosters, .. layout.Wiring.Boosters.Except(Whole.Wiring.Boosters)] },
    };

    private Layout With(Wiring wiring) => Whole with { Wiring = wiring };
}
