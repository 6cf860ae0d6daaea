using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Properties;

/// <summary>
/// Why each gap is there, found from its two faces, against the slow way: close it, look at the whole layout anew in every position.
/// </summary>
public sealed class GapPurposeTests
{
    private const int Layouts = 1500;

    /// <summary>Random layouts without a conflict, so that whatever appears when a gap is closed is the gap's doing.</summary>
    private static readonly ImmutableArray<(int Seed, Layout Layout, ImmutableArray<GapPurpose> Purposes)> Cases =
    [
        .. Enumerable.Range(1, Layouts).Select(seed => (seed, GapPlans.Of(seed)))
            .Where(pair => !GapPlans.Conflicts(GapPlans.Look(pair.Item2)))
            .Select(pair => (pair.seed, pair.Item2, GapPlans.Purposes(pair.Item2))),
    ];

    [Fact]
    public void Gap_is_needed_for_polarity_where_the_layout_without_it_conflicts_and_only_there()
    {
        Dictionary<GapUse, int> met = [];
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases)
        {
            foreach (GapPurpose purpose in purposes)
            {
                bool conflicts = GapPlans.Conflicts(GapPlans.Look(GapPlans.Close(layout, purpose.Gap)));
                bool told = purpose.Use is GapUse.Short or GapUse.Reversing or GapUse.Loop or GapUse.Districts;
                Assert.True(conflicts == told, $"seed {seed}: {purpose.Gap} {purpose.Use}, conflicts: {conflicts}");
                met[purpose.Use] = met.GetValueOrDefault(purpose.Use) + 1;
            }
        }

        Assert.All(
            [GapUse.Short, GapUse.Reversing, GapUse.Loop, GapUse.Districts, GapUse.Switching, GapUse.Unfed, GapUse.Nothing],
            use => Assert.True(met.GetValueOrDefault(use) > 20, $"{use}: {string.Join(' ', met)}"));
        Assert.DoesNotContain(GapUse.Undecided, met.Keys);
    }

    [Fact]
    public void Positions_told_are_the_fewest_that_bring_the_two_wires_together()
    {
        int met = 0;
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases)
        {
            foreach (GapPurpose purpose in purposes.Where(purpose => purpose.Meeting is not null))
            {
                RailGraph closed = RailGraph.Build(GapPlans.Close(layout, purpose.Gap));
                int fewest = Settings(closed).Where(positions => Meets(closed, positions, purpose.Meeting!.Kind)).Min(positions => positions.Count);
                Assert.True(Meets(closed, purpose.Turnouts, purpose.Meeting!.Kind), $"seed {seed}: {purpose.Gap} does not meet");
                Assert.True(fewest == purpose.Turnouts.Count, $"seed {seed}: {purpose.Gap} {purpose.Turnouts.Count} and not {fewest}");
                met += fewest > 0 ? 1 : 0;
            }
        }

        Assert.True(met > 100, $"{met}");
    }

    [Fact]
    public void Path_runs_from_wire_to_wire_over_the_gap_along_what_conducts()
    {
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases.Take(400))
        {
            foreach (GapPurpose purpose in purposes.Where(purpose => !purpose.Path.IsEmpty))
            {
                RailGraph graph = RailGraph.Build(layout);
                HashSet<(string, string)> touching = [.. graph.Links
                    .Where(link => link is not RailLink.Contact contact || purpose.Turnouts.GetValueOrDefault(contact.Piece) == contact.Position)
                    .SelectMany(link => new[] { (link.From, link.To), (link.To, link.From) })
                    .Select(pair => (graph.Nodes[pair.Item1].ToString()!, graph.Nodes[pair.Item2].ToString()!))];
                int jumps = purpose.Path.Zip(purpose.Path.Skip(1)).Count(step => !touching.Contains((step.First.ToString()!, step.Second.ToString()!)));
                Assert.True(jumps == 1, $"seed {seed}: {purpose.Gap} {string.Join(" > ", purpose.Path)}");
            }
        }
    }

    [Fact]
    public void All_gaps_that_nothing_needs_can_be_closed_together_without_a_conflict()
    {
        int met = 0;
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases)
        {
            List<GapPurpose> spare = [.. purposes.Where(purpose => !purpose.IsNeeded && purpose.EitherOf.IsEmpty)];
            met += spare.Count > 1 ? 1 : 0;
            Layout closed = spare.Aggregate(layout, (without, purpose) => GapPlans.Close(without, purpose.Gap));
            Assert.False(GapPlans.Conflicts(GapPlans.Look(closed)), $"seed {seed}: {string.Join(' ', spare.Select(purpose => purpose.Gap))}");
        }

        Assert.True(met > 100, $"{met}");
    }

    [Fact]
    public void Of_gaps_told_with_each_other_each_alone_may_be_closed_and_all_together_may_not()
    {
        int met = 0;
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases)
        {
            foreach (GapPurpose purpose in purposes.Where(purpose => !purpose.EitherOf.IsEmpty))
            {
                met++;
                Assert.All(purpose.EitherOf, other => Assert.Contains(purpose.Gap, purposes.Single(each => each.Gap == other).EitherOf));
            }

            List<GapRail> bound = [.. purposes.Where(purpose => !purpose.IsNeeded).Select(purpose => purpose.Gap)];
            bool anyBound = purposes.Any(purpose => !purpose.EitherOf.IsEmpty);
            bool conflicts = GapPlans.Conflicts(GapPlans.Look(bound.Aggregate(layout, GapPlans.Close)));
            Assert.True(conflicts == anyBound, $"seed {seed}: {string.Join(' ', bound)}");
        }

        Assert.True(met > 20, $"{met}");
    }

    [Fact]
    public void Switching_gap_parts_a_rail_with_current_from_one_without_in_the_positions_told()
    {
        int met = 0;
        foreach ((int seed, Layout layout, ImmutableArray<GapPurpose> purposes) in Cases)
        {
            foreach (GapPurpose purpose in purposes.Where(purpose => purpose.Use is GapUse.Switching or GapUse.Nothing))
            {
                RailGraph graph = RailGraph.Build(layout);
                GapFaces faces = GapFaces.All(graph).First(gap => new GapRail(gap.At, gap.Side) == purpose.Gap
                    || (gap.At is GapPlace.InJoint joint && graph.Index.Opposite(joint.End) is { } other
                        && new GapRail(new GapPlace.InJoint(other), gap.Side.Across()) == purpose.Gap));
                bool Parts(IReadOnlyDictionary<PieceId, string> positions)
                {
                    ImmutableArray<ImmutableSortedSet<string>> legs = Polarity.LegsIn(graph, positions);
                    return legs[faces.Near].IsEmpty != legs[faces.Far].IsEmpty;
                }

                bool ever = Settings(graph).Where(positions => positions.Count == AllPieces(graph).Length).Any(Parts);
                Assert.True(ever == (purpose.Use == GapUse.Switching), $"seed {seed}: {purpose.Gap} {purpose.Use}");
                met += ever ? 1 : 0;
            }
        }

        Assert.True(met > 20, $"{met}");
    }

    private static ImmutableArray<PieceId> AllPieces(RailGraph graph) =>
        [.. graph.Links.OfType<RailLink.Contact>().Select(contact => contact.Piece).Distinct().Order()];

    /// <summary>Every choice of some pieces and a position for each.</summary>
    private static IEnumerable<ImmutableSortedDictionary<PieceId, string>> Settings(RailGraph graph) => AllPieces(graph).Aggregate(
        (IEnumerable<ImmutableSortedDictionary<PieceId, string>>)[ImmutableSortedDictionary<PieceId, string>.Empty],
        (settings, piece) => settings.SelectMany(setting => graph.PositionsOf(piece).Select(position => setting.Add(piece, position)).Prepend(setting)));

    private static bool Meets(RailGraph graph, IReadOnlyDictionary<PieceId, string> positions, MeetingKind kind)
    {
        SupplyRelations relations = new(graph.Layout);
        IEnumerable<ImmutableSortedSet<string>> nets = Polarity.LegsIn(graph, positions).DistinctBy(legs => string.Join(' ', legs));
        return nets.Any(legs => legs.Any(one => legs.Any(other => relations.Between(Wire(one), Wire(other)) == kind)));
    }

    private static FeederLeg Wire(string leg) => new("", leg[..^2], leg[^1] == 'A' ? Leg.A : Leg.B);
}
