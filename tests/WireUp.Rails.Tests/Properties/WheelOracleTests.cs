using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>Wheels on gaps against trying every position, and what must hold of gaps in any layout.</summary>
public sealed class WheelOracleTests
{
    private const int Layouts = 800;

    private static readonly ImmutableArray<(int Seed, Layout Layout, PolarityReport Report)> Cases =
    [
        .. Enumerable.Range(1, Layouts).Select(seed => (seed, GapPlans.Of(seed))).Select(pair => (pair.seed, pair.Item2, GapPlans.Look(pair.Item2)))
            .Where(each => !GapPlans.Conflicts(each.Item3)),
    ];

    [Fact]
    public void Wheel_shorts_at_a_gap_in_some_position_in_which_a_train_can_be_there_and_in_no_other()
    {
        int met = 0, byPosition = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            RailGraph graph = report.Graph;
            TrainStands stands = new(graph);
            HashSet<(RailPoint, RailPoint)> always = [.. report.AcrossGaps.Select(meeting => (meeting.Near, meeting.Far))];
            ImmutableArray<ImmutableSortedDictionary<PieceId, string>> all = [.. Settings(graph)];
            ImmutableArray<ImmutableArray<ImmutableSortedSet<string>>> legs = [.. all.Select(positions => Polarity.LegsIn(graph, positions))];
            SupplyRelations relations = new(layout);
            foreach (GapFaces gap in GapFaces.All(graph))
            {
                ImmutableArray<ImmutableSortedDictionary<PieceId, string>> there = [.. stands.At(gap.At)];
                bool shorts = Enumerable.Range(0, all.Length).Any(i => there.Any(given => given.All(pair => all[i].GetValueOrDefault(pair.Key, pair.Value) == pair.Value))
                    && legs[i][gap.Near].Any(one => legs[i][gap.Far].Any(other => IsBad(relations, one, other))));
                RailPoint near = graph.Nodes[gap.Near], far = graph.Nodes[gap.Far];
                bool told = report.UnderWheels.Any(wheel => wheel.Near == near && wheel.Far == far);
                Assert.True(shorts == told || always.Contains((near, far)), $"seed {seed}: {gap.At} {gap.Side} shorts: {shorts}");
                met += shorts ? 1 : 0;
                byPosition += told ? 1 : 0;
            }
        }

        Assert.True(met > 50 && byPosition > 5, $"{met} {byPosition}");
    }

    [Fact]
    public void Opening_one_more_gap_never_makes_a_short()
    {
        Random random = new(7);
        int without = 0;
        foreach ((int seed, Layout layout, PolarityReport _) in Cases)
        {
            Joint joint = layout.Joints[random.Next(layout.Joints.Length)];
            Layout cut = layout with { Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, new(new GapPlace.InJoint(joint.First), (RailSet)random.Next(1, 4))] } };
            PolarityReport report = GapPlans.Look(cut);
            Assert.True(report.Standing.IsEmpty && report.ByPosition.IsEmpty && report.FrogFaults.IsEmpty, $"seed {seed}: {joint}");
            without++;
        }

        Assert.True(without > 100, $"{without}");
    }

    [Fact]
    public void Closing_a_gap_that_nothing_needs_adds_no_conflict_and_no_rail_without_feed()
    {
        int closed = 0;
        foreach ((int seed, Layout layout, PolarityReport report) in Cases)
        {
            foreach (GapPurpose purpose in GapPlans.Purposes(layout).Where(purpose => !purpose.IsNeeded))
            {
                PolarityReport after = GapPlans.Look(GapPlans.Close(layout, purpose.Gap));
                Assert.False(GapPlans.Conflicts(after), $"seed {seed}: {purpose.Gap}");
                Assert.True(Metres(after.Unfed) <= Metres(report.Unfed) + 1e-9, $"seed {seed}: {purpose.Gap} leaves more without feed");
                closed++;
            }
        }

        Assert.True(closed > 100, $"{closed}");
    }

    private static double Metres(ImmutableArray<UnfedRail> rails) => rails.Sum(rail => rail.ToMetres - rail.FromMetres);

    private static bool IsBad(SupplyRelations relations, string one, string other)
    {
        (FeederLeg from, FeederLeg to) = (Wire(one), Wire(other));
        return relations.Between(from, to) == MeetingKind.Short || (relations.Between(from, to) == MeetingKind.Reversing && relations.BothSwap(from, to));
    }

    private static IEnumerable<ImmutableSortedDictionary<PieceId, string>> Settings(RailGraph graph) => graph.Links.OfType<RailLink.Contact>()
        .Select(contact => contact.Piece).Distinct().Order().Aggregate(
            (IEnumerable<ImmutableSortedDictionary<PieceId, string>>)[ImmutableSortedDictionary<PieceId, string>.Empty],
            (settings, piece) => settings.SelectMany(setting => graph.PositionsOf(piece).Select(position => setting.Add(piece, position))));

    private static FeederLeg Wire(string leg) => new("", leg[..^2], leg[^1] == 'A' ? Leg.A : Leg.B);
}
