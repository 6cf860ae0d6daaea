using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>What is said of cabs against the slow way: set every switch and turnout in every way, and look what each rail gets.</summary>
public sealed class CabOracleTests
{
    [Fact]
    public void Cabs_are_told_as_joined_by_both_rails_exactly_when_some_positions_join_them() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            PlanBuilder plan = Railway(new(seed), mixedGaps: true);
            (RailGraph graph, CabReport found) = Look(plan);
            bool expected = States(graph).Any(state => AreJoined(graph, state));
            Assert.Equal(expected, found.Joins.Any(join => join.BothRails));
            foreach (CabJoin join in found.Joins.Where(join => join.BothRails))
            {
                Assert.Contains(States(graph), state => join.Meeting.Turnouts.All(setting => state[setting.Key] == setting.Value) && AreJoined(graph, state));
            }
        },
        iter: 300);

    [Fact]
    public void Pairs_of_cabs_at_a_gap_are_those_that_some_positions_bring_there() => Gen.Int[0, 1_000_000].Sample(
        seed =>
        {
            PlanBuilder plan = Railway(new(seed), mixedGaps: false);
            (RailGraph graph, CabReport found) = Look(plan);
            Assert.Equal(AtGaps(graph).Order(StringComparer.Ordinal), Told(found).Order(StringComparer.Ordinal));
        },
        iter: 200);

    [Fact]
    public void The_railways_of_these_tests_show_both_answers()
    {
        CabReport[] mixed = [.. Enumerable.Range(0, 100).Select(seed => Look(Railway(new(seed), mixedGaps: true)).Cabs)];
        Assert.InRange(mixed.Count(cabs => cabs.Joins.Any(join => join.BothRails)), 10, 90);
        Assert.InRange(mixed.Count(cabs => cabs.Joins.Any(join => !join.BothRails)), 10, 100);
        Assert.InRange(Enumerable.Range(0, 100).Sum(seed => Told(Look(Railway(new(seed), mixedGaps: false)).Cabs).Count()), 100, 10_000);
    }

    /// <summary>
    /// Blocks in a row, one with a siding, each with a selector for two cabs or fed by a switch from its neighbour; gaps between them in
    /// one rail, in both, or forgotten.
    /// </summary>
    private static PlanBuilder Railway(Random random, bool mixedGaps)
    {
        PlanBuilder plan = new PlanBuilder { Control = ControlSystem.Direct }
            .Booster("a").Booster("b").District("a", booster: "a").District("b", booster: "b")
            .Sections("b1 b2 b3 b4 b5").Turnouts("T1", frog: random.Next(2) == 0 ? FrogKind.Insulated : FrogKind.Live)
            .Chain("b1 > b2 > T1.points").Chain("T1.through > b3 > b4").Chain("T1.diverging > b5");
        RailSet cut = random.Next(2) == 0 ? RailSet.Left : RailSet.Both;
        foreach (string border in new[] { "b1.b", "b2.b", "T1.through", "T1.diverging", "b3.b" })
        {
            // Beside a frog both rails are always cut, so that no short of cab a with itself hides what cabs do.
            RailSet here = border.StartsWith('T') ? RailSet.Both : mixedGaps ? (RailSet)random.Next(4) : cut;
            string? over = !border.StartsWith('T') && random.Next(3) == 0 ? $"S{border[^1]}{border[1]}" : null;
            if (here != RailSet.None)
            {
                _ = over is null ? plan : plan.Switch(over, "on off");
                plan.Gap(border, here, over is null ? null : $"{over}.on");
            }
        }

        foreach (int block in Enumerable.Range(1, 5))
        {
            string name = block.ToString(CultureInfo.InvariantCulture);
            if (random.Next(5) > 0)
            {
                plan.Switch($"B{name}", random.Next(2) == 0 ? "a b" : "a b off").Feed("a", $"b{name}@1?B{name}.a");
                _ = random.Next(4) == 0 ? plan : plan.Feed("b", $"b{name}@1?B{name}.b");
            }
        }

        return plan;
    }

    private static (RailGraph Graph, CabReport Cabs) Look(PlanBuilder plan)
    {
        RailGraph graph = plan.Graph();
        PolarityReport polarity = Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken);
        return (graph, Cabs.Analyse(graph, polarity, FeedWays.Of(graph)));
    }

    private static IEnumerable<ImmutableDictionary<PieceId, string>> States(RailGraph graph)
    {
        IEnumerable<ImmutableDictionary<PieceId, string>> states = [ImmutableDictionary<PieceId, string>.Empty];
        foreach (PieceId owner in graph.Layout.Track.Select(piece => piece.Id).Concat(graph.Layout.Wiring.Switches.Select(item => item.Name)))
        {
            ImmutableArray<string> positions = graph.PositionsOf(owner);
            states = positions.IsEmpty ? states : states.SelectMany(state => positions.Select(position => state.Add(owner, position)));
        }

        return states;
    }

    /// <summary>Whether each leg of cab a conducts to some leg of cab b, over different rails.</summary>
    private static bool AreJoined(RailGraph graph, ImmutableDictionary<PieceId, string> state)
    {
        ImmutableArray<ImmutableSortedSet<string>> legs = Polarity.LegsIn(graph, state);
        bool Meets(string leg) => legs.Any(net => net.Contains(leg) && (net.Contains("b/A") || net.Contains("b/B")));
        return Meets("a/A") && Meets("a/B");
    }

    private static HashSet<string> AtGaps(RailGraph graph)
    {
        HashSet<string> found = [];
        foreach (ImmutableDictionary<PieceId, string> state in States(graph))
        {
            ImmutableArray<ImmutableSortedSet<string>> legs = Polarity.LegsIn(graph, state);
            foreach (GapFaces gap in GapFaces.All(graph))
            {
                found.UnionWith(
                    from near in legs[gap.Near]
                    from far in legs[gap.Far]
                    where near[0] != far[0] && legs[gap.Near].Count == 1 && legs[gap.Far].Count == 1
                    select $"{gap.At} {near[0]} {far[0]}");
            }
        }

        return found;
    }

    private static IEnumerable<string> Told(CabReport cabs) =>
        cabs.Borders.SelectMany(border => border.Meetings.Select(pair => $"{border.At} {pair.Near} {pair.Far}")).Distinct();
}
