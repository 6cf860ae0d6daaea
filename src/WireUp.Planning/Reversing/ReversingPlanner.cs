using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>
/// Proposes reversing sections: where a walk over the track comes back with its rails exchanged, some track must be fed through a
/// device that swaps it. The choice is exact among the candidates considered: fewest sections, then fewest gaps, then nearest to
/// good practice.
/// </summary>
public static class ReversingPlanner
{
    /// <summary>Plans the reversing sections of a layout. Three-rail track has no polarity to lose and needs none.</summary>
    /// <param name="layout">The layout; what is wired is not touched.</param>
    /// <param name="options">How, or null for the defaults.</param>
    /// <param name="cancellation">Stops the search.</param>
    public static ReversingPlan Plan(Layout layout, ReversingOptions? options = null, CancellationToken cancellation = default)
    {
        if (layout.Control == ControlSystem.ThreeRail)
        {
            return new([], [.. ReversingResult.Unswapped(layout)]);
        }

        options ??= ReversingOptions.Default;
        ImmutableArray<Gap> completed = HalfGaps.ToComplete(layout);
        layout = layout with { Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. completed] } };
        LayoutIndex index = new(layout);
        RunMap map = new RunMapBuilder(index).Build();
        BuiltWiring built = BuiltWiring.Of(map);
        Clearances clearances = Clearances.Of(layout, options);
        HashSet<int> parted = [.. built.Borders.Select(border => border.Run), .. built.Stretches.Select(stretch => stretch.Run)];
        ImmutableArray<Block> blocks = BlockFinder.Of(map, run => !parted.Contains(run));
        ReversingBridges bridges = new(layout);
        ReversingSearch search = new(map, built, options, blocks, cancellation);
        return new ReversingResult(map, built, bridges, clearances).Of(search.Settle(clearances)).WithCompleted(completed);
    }
}
