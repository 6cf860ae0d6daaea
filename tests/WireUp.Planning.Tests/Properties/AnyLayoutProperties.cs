using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Properties;

public sealed class AnyLayoutProperties
{
    [Fact]
    public void Any_small_layout_is_planned_so_that_nothing_shorts_or_it_says_what_remains()
    {
        int finished = 0;
        for (int seed = 0; seed < 200; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 3 + (seed % 12)) with { NoFeeder = [] };
            PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
            Assert.True(plan.IsFinished || plan.Remains.Length > 0, $"seed {seed}: unfinished and silent");
            PolarityReport polarity = Polarity.Analyse(RailGraph.Build(plan.After), cancellationToken: TestContext.Current.CancellationToken);
            Assert.True(polarity.Standing.IsEmpty && polarity.ByPosition.IsEmpty && polarity.Exchanged.IsEmpty, $"seed {seed}: wires meet");
            Assert.True(!plan.IsFinished || polarity.Unfed.IsEmpty, $"seed {seed}: unfed");
            string? trouble = FinishedPlan.Trouble(plan, seed);
            Assert.True(trouble is null, $"seed {seed}: {trouble}");
            finished += plan.IsFinished ? 1 : 0;
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{finished} of 200 finished");
        Assert.InRange(finished, 100, 200);
    }

    [Fact]
    public void A_layout_without_track_needs_nothing()
    {
        PlanResult plan = Planner.Plan(new TrackBuilder().Build(), cancel: TestContext.Current.CancellationToken);
        Assert.True(plan.IsFinished);
        Assert.Empty(plan.Proposals);
    }

    [Fact]
    public void Turnouts_without_any_section_cannot_be_fed_and_that_is_said()
    {
        Layout layout = new TrackBuilder().Turnout("T1").Turnout("T2").Join("T1.points", "T2.points").Build();
        PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        Assert.False(plan.IsFinished);
        Assert.Contains(plan.Remains, remains => remains.Contains("no section", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("home-yard")]
    [InlineData("balloon-loop")]
    [InlineData("three-rail")]
    public void Other_names_for_the_pieces_change_no_objective(string sample)
    {
        PlanResult plan = Planner.Plan(Renamed(Plans.Read(sample)), cancel: TestContext.Current.CancellationToken);
        Assert.Equal(
            Plans.Of(sample).Objectives.Select(objective => (objective.Name, Value: Math.Round(objective.Value, 2))),
            plan.Objectives.Select(objective => (objective.Name, Value: Math.Round(objective.Value, 2))));
    }

    /// <summary>Every name written backwards behind a letter, so that their order changes.</summary>
    private static Layout Renamed(Layout layout)
    {
        return layout with
        {
            Track = [.. layout.Track.Select(Piece)],
            Joints = [.. layout.Joints.Select(joint => joint with { First = End(joint.First), Second = End(joint.Second) })],
            NoFeeder = [.. layout.NoFeeder.Select(Id)],
            NoGap = [.. layout.NoGap.Select(Id)],
            Stops = [.. layout.Stops.Select(Id)],
            Wishes = layout.Wishes with
            {
                Apart = [.. layout.Wishes.Apart.Select(wish => new ApartWish([.. wish.Tracks.Select(track => track.Select(Id).ToImmutableArray())]))],
            },
            DistrictsWanted = [.. layout.DistrictsWanted.Select(wish => wish with { Pieces = [.. wish.Pieces.Select(Id)] })],
            Wiring = layout.Wiring with
            {
                Feeders = [.. layout.Wiring.Feeders.Select(feeder => feeder with { At = Place(feeder.At) })],
                Boosters = [.. layout.Wiring.Boosters.Select(booster => booster with { Beside = booster.Beside is { } at ? Place(at) : null })],
                Gaps = [.. layout.Wiring.Gaps.Select(gap => gap with
                {
                    At = gap.At is GapPlace.InSection within ? within with { Place = Place(within.Place) } : new GapPlace.InJoint(End(((GapPlace.InJoint)gap.At).End)),
                })],
            },
        };

        static PieceId Id(PieceId id) => new("x" + new string([.. id.Name.Reverse()]));
        static TrackEnd End(TrackEnd end) => new(Id(end.Piece), end.Name);
        static TrackPlace Place(TrackPlace place) => new(Id(place.Section), place.MetresFromA);
        static Piece Piece(Piece piece) => piece switch
        {
            Piece.Section section => new Piece.Section(Id(section.Id), section.Length) { Rail = section.Rail },
            Piece.Stop stop => new Piece.Stop(Id(stop.Id)),
            Piece.Turnout turnout => new Piece.Turnout(Id(turnout.Id), turnout.Hand, turnout.Frog)
            {
                Feed = turnout.Feed,
                Number = turnout.Number,
                Length = turnout.Length,
                DeadLength = turnout.DeadLength,
            },
            Piece.Crossing crossing => new Piece.Crossing(Id(crossing.Id), crossing.Angle, crossing.Frog) { Length = crossing.Length, DeadLength = crossing.DeadLength },
            _ => throw new ArgumentOutOfRangeException(nameof(piece)),
        };
    }
}
