using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds feeders that contradict each other: on one joined-up stretch of track they ask for opposite signs. The fewer are taken for
/// the mistake; of two equal sides, the one that comes later in the layout.
/// </summary>
/// <remarks>
/// Two feeders that no position lets conduct together contradict each other in nothing. A feeder that is one throw of a hand reversing
/// switch is left out: its wires are exchanged on purpose, and where they should not meet is looked for by position.
/// </remarks>
internal static class ExchangedFeederFinder
{
    internal static ImmutableArray<ExchangedFeeders> Find(
        RailGraph graph, ParityGraph parity, ImmutableArray<OddLoop> loops, RailPathWorkspace paths)
    {
        HashSet<Joint> cut = [.. loops.Where(loop => loop.Walk is not null).SelectMany(loop => loop.Walk!.Joints)];
        (ImmutableArray<int> components, ImmutableArray<int> signs) = SignedForest.Label(
            parity.Parts.Length, parity.Links, SignedForest.Adjacency(parity), link => !cut.Contains(parity.Links[link].Joint));
        SupplyRelations relations = new(graph.Layout);

        return
        [
            .. from feeder in graph.Layout.Wiring.Feeders
               where !ReversingSwitches.IsThrow(graph.Layout.Wiring, feeder)
               let part = parity.PartAt(feeder.At)
               let sign = feeder.Swap ? -signs[part] : signs[part]
               group (feeder, sign) by (components[part], relations.PhaseOf(feeder.District), relations.IsTurned(feeder.District)) into stretch
               let sides = stretch.GroupBy(member => member.sign, member => member.feeder).OrderByDescending(side => side.Count()).ToList()
               where sides.Count == 2
               let wrong = sides[1].Where(one => sides[0].Any(other => MayConductTogether(one, other))).ToImmutableArray()
               let right = sides[0].Where(one => wrong.Any(other => MayConductTogether(one, other))).ToImmutableArray()
               where !wrong.IsEmpty
               select Describe(graph, paths, wrong, right),
        ];
    }

    private static bool MayConductTogether(Feeder one, Feeder other) => one.When is not { } first || other.When is not { } second
        || first.Owner != second.Owner || first.Position == second.Position;

    private static ExchangedFeeders Describe(
        RailGraph graph, RailPathWorkspace paths, ImmutableArray<Feeder> wrong, ImmutableArray<Feeder> right) =>
        new([.. wrong.Select(feeder => feeder.Name)], [.. right.Select(feeder => feeder.Name)])
        {
            Short = Witness(graph, paths, right, Leg.A, wrong) ?? Witness(graph, paths, right, Leg.B, wrong),
        };

    private static RailMeeting? Witness(
        RailGraph graph, RailPathWorkspace paths, ImmutableArray<Feeder> from, Leg leg, ImmutableArray<Feeder> to)
    {
        Leg other = leg == Leg.A ? Leg.B : Leg.A;
        ILookup<int, Feeder> starts = from.ToLookup(feeder => NodeOf(graph, feeder, leg));
        ILookup<int, Feeder> goals = to.ToLookup(feeder => NodeOf(graph, feeder, other));
        if (paths.Shortest(starts.Select(start => start.Key), goals.Contains) is not { } path)
        {
            return null;
        }

        Feeder first = starts[path[0]].First(), last = goals[path[^1]].First();
        return new(MeetingKind.Short, new(first.Name, first.District, leg), new(last.Name, last.District, other), paths.Points(path));
    }

    private static int NodeOf(RailGraph graph, Feeder feeder, Leg leg)
    {
        (int legA, int legB) = FeederPoints.Of(graph, feeder);
        return leg == Leg.A ? legA : legB;
    }
}
