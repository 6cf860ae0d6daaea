using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Tracing;

namespace WireUp.Layouts.Tests.Exact.Tracing;

/// <summary>Edits of a layout file that somebody typed by hand: what changes in the text, line by line.</summary>
public sealed class TrackEditsTests
{
    private const string Text = """
        # as built
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          west:   { length: 2 m, path: [[0, 0], [1000, 0], [2000, 0]] }   # measured
          T1:     { turnout: right, number: 6 }
          main:   { path: [[2000, 0], [4000, 0]] }
          branch: { path: [[2000, 0], [4000, -400]], x-laid: 1987 }
          end-stop: { stop: true }
        joined:
          - west > T1.points          # by the door
          - T1.through > main > end-stop
          - T1.diverging > branch
        joints:
          T1.diverging: soldered      # hand made
        wiring:
          boosters: { cab: { amps: 5 A, beside: branch@1 m } }
          districts:
            all: { booster: cab, trip: 3 A }
          feeders:
            f1: { at: main@1.9 m, bus: cab, district: all, wire: 20 AWG, length: 200 }
            # the next one is hard to reach
            f2: { at: branch@500, bus: cab, district: all, wire: 20 AWG, length: 200 }
          gaps:
            - { at: branch@1.5 m, rails: left }
            - { at: T1.through, rails: right }
            - at: main@-100
              rails: both
        districts-wanted: { yard: [branch], line: [main, west] }
        wishes:
          apart: [[main, [branch, T1]]]
        spots:
          stops: [branch, main]
          no-gap:
            - T1
            - branch

        """;


    [Fact]
    public void The_file_that_the_edits_are_made_in_is_sound() => Assert.Equal([], LayoutFile.Read(Text, "test").Problems);

    [Fact]
    public void A_new_name_goes_wherever_the_old_one_stood()
    {
        string after = Done(TrackEdits.Rename(Document, new("branch"), "quarry"));
        Assert.Equal(Text.Replace("branch", "quarry", StringComparison.Ordinal), after);
        Assert.Equal(Text.Replace("T1", "T_9", StringComparison.Ordinal), Done(TrackEdits.Rename(Document, new("T1"), "T_9")));
    }

    [Theory]
    [InlineData("main")]
    [InlineData("a b")]
    [InlineData("x-1")]
    [InlineData("")]
    public void A_name_that_is_taken_or_none_is_refused(string name) =>
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.Rename(Document, new("branch"), name));

    [Fact]
    public void A_piece_goes_with_all_that_hangs_on_it()
    {
        string after = Done(TrackEdits.Remove(Document, new("branch")), "Took out \"branch\" with feeder \"f2\", a gap.");
        Assert.Equal("""
            # as built
            wireup: 1
            name: Test
            longest-train: 1 m
            track:
              west:   { length: 2 m, path: [[0, 0], [1000, 0], [2000, 0]] }   # measured
              T1:     { turnout: right, number: 6 }
              main:   { path: [[2000, 0], [4000, 0]] }
              end-stop: { stop: true }
            joined:
              - west > T1.points          # by the door
              - T1.through > main > end-stop
            joints:
            wiring:
              boosters: { cab: { amps: 5 A } }
              districts:
                all: { booster: cab, trip: 3 A }
              feeders:
                f1: { at: main@1.9 m, bus: cab, district: all, wire: 20 AWG, length: 200 }
                # the next one is hard to reach
              gaps:
                - { at: T1.through, rails: right }
                - at: main@-100
                  rails: both
            districts-wanted: { yard: [], line: [main, west] }
            wishes:
              apart: [[main, [T1]]]
            spots:
              stops: [main]
              no-gap:
                - T1

            """, after);
    }

    [Fact]
    public void Where_a_middle_piece_of_a_chain_goes_the_rest_of_the_chain_stays()
    {
        string after = Done(TrackEdits.Remove(Document, new("main")));
        Assert.DoesNotContain("main", after, StringComparison.Ordinal);
        Assert.DoesNotContain("gaps:\n    - { at: T1.through", after, StringComparison.Ordinal);
        Assert.Contains("joined:\n  - west > T1.points          # by the door\n  - T1.diverging > branch\n", after, StringComparison.Ordinal);
    }

    [Fact]
    public void What_switches_something_else_cannot_go_before_that()
    {
        string switched = Text.Replace("wire: 20 AWG, length: 200 }\n    # the", "wire: 20 AWG, length: 200, when: T1.diverging }\n    # the", StringComparison.Ordinal);
        TrackOutcome.Refused refused = Assert.IsType<TrackOutcome.Refused>(TrackEdits.Remove(LayoutDocument.Open(switched, "test"), new("T1")));
        Assert.Contains("\"f1\"", refused.Reason, StringComparison.Ordinal);
    }

    /// <summary>What a line divided is whole again when line and turnout are gone, but for the joint.</summary>
    [Fact]
    public void A_turnout_with_an_open_end_leaves_a_joint_behind()
    {
        const string Before = "wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  s: { path: [[0, 0], [3000, 0]] }\nwiring:\n  boosters: { cab: { amps: 5 A } }\n"
            + "  districts: { all: { booster: cab, trip: 3 A } }\n  feeders:\n    f1: { at: s@2.5 m, bus: cab, district: all, wire: 20 AWG, length: 200 }\n";
        string divided = Done(TrackEdits.AddLine(LayoutDocument.Open(Before, "test"), [new(1.5, 0), new(3, 0.25)], 0.01, ImmutableDictionary<string, string>.Empty));
        string without = Done(TrackEdits.Remove(LayoutDocument.Open(divided, "test"), new("track-1")));
        Layout whole = LayoutFile.Read(Done(TrackEdits.Remove(LayoutDocument.Open(without, "test"), new("T1"))), "test").Layout!;
        Assert.Equal(new Joint(new(new("s"), "b"), new(new("s-2"), "a")), Assert.Single(whole.Joints));
        Assert.Equal(3, whole.Track.OfType<Piece.Section>().Sum(section => section.Length.Meters), 1e-9);
        TrackPlace feeder = Assert.Single(whole.Wiring.Feeders).At;
        Assert.Equal(2.5, feeder.MetresFromA + whole.Track.OfType<Piece.Section>().First().Length.Meters, 1e-4);
    }

    [Fact]
    public void The_last_piece_stays() =>
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.Remove(LayoutDocument.Open("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  s: { length: 1 m }\n", "test"), new("s")));

    [Fact]
    public void A_point_moves_and_the_track_joined_there_with_it()
    {
        string two = "wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  s: { path: [[0, 0], [1000, 0]] }\n  t: { path: [[1000, 0], [2000, 0]] }   # new\njoined: [ s > t ]\n";
        string after = Done(TrackEdits.MovePoint(LayoutDocument.Open(two, "test"), new("s"), 1, new(1, 0.25), 0.01, ImmutableDictionary<string, string>.Empty));
        Assert.Equal("wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  s: { path: [[0, 0], [1000, 250]] }\n  t: { path: [[1000, 250], [2000, 0]] }   # new\njoined: [ s > t ]\n", after);
    }

    [Fact]
    public void Places_on_a_section_that_grows_too_short_for_them_keep_their_shares_of_the_way()
    {
        string after = Done(TrackEdits.MovePoint(Document, new("branch"), 1, new(2.4, -0.1), 0, ImmutableDictionary<string, string>.Empty));
        Assert.Contains("branch: { path: [[2000, 0], [2400, -100]], x-laid: 1987 }", after, StringComparison.Ordinal);
        Layout layout = LayoutFile.Read(after, "test").Layout!;
        // The branch was √(2² + 0.4²) = 2.0396 m long and is √(0.4² + 0.1²) = 0.4123 m.
        Assert.Equal(0.5 * 0.4123 / 2.0396, layout.Wiring.Feeders.Single(feeder => feeder.Name == "f2").At.MetresFromA, 1e-4);
        Assert.Equal(1.5 * 0.4123 / 2.0396, ((GapPlace.InSection)layout.Wiring.Gaps[0].At).Place.MetresFromA, 1e-4);
        Assert.Contains("f1: { at: main@1.9 m,", after, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stated_length_stays_when_its_path_changes() =>
        Assert.Contains("west:   { length: 2 m, path: [[0, 0], [1000, 300], [2000, 0]] }   # measured",
            Done(TrackEdits.MovePoint(Document, new("west"), 1, new(1, 0.3), 0, ImmutableDictionary<string, string>.Empty)), StringComparison.Ordinal);

    [Fact]
    public void Points_come_and_go()
    {
        string more = Done(TrackEdits.AddPoint(Document, new("west"), new(1.5, 0.1)));
        Assert.Contains("path: [[0, 0], [1000, 0], [1500, 100], [2000, 0]] }", more, StringComparison.Ordinal);
        Assert.Equal(Text, Done(TrackEdits.RemovePoint(LayoutDocument.Open(more, "test"), new("west"), 2)));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.RemovePoint(Document, new("west"), 0));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.RemovePoint(Document, new("west"), 3));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.AddPoint(Document, new("T1"), new(0, 0)));
    }

    [Fact]
    public void An_open_end_that_is_drawn_to_a_track_meets_it()
    {
        string after = Done(TrackEdits.MovePoint(Document, new("west"), 0, new(3.99, -0.4), 0.02, ImmutableDictionary<string, string>.Empty));
        Assert.Equal(new TrackEnd(new("branch"), "b"), new LayoutIndex(LayoutFile.Read(after, "test").Layout!).Opposite(new(new("west"), "a")));
    }

    [Fact]
    public void Lengths_are_stated_and_taken_back()
    {
        string stated = Done(TrackEdits.SetLength(Document, new("main"), Length.FromMeters(2.5)));
        Assert.Contains("  main:   { path: [[2000, 0], [4000, 0]], length: 2.5 m }\n", stated, StringComparison.Ordinal);
        string back = Done(TrackEdits.SetLength(LayoutDocument.Open(stated, "test"), new("main"), null));
        Assert.Equal(Text, back);
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.SetLength(Document, new("end-stop"), Length.FromMeters(1)));
    }

    [Fact]
    public void Frogs_and_turnouts_are_described()
    {
        string live = Done(TrackEdits.SetFrog(Document, new("T1"), FrogKind.Live, FrogFeed.Contact));
        Assert.Contains("T1:     { turnout: right, number: 6, frog: live, frog-feed: contact }", live, StringComparison.Ordinal);
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.SetFrog(Document, new("T1"), FrogKind.Insulated, FrogFeed.Contact));
        string wye = Done(TrackEdits.SetTurnout(Document, new("T1"), TurnoutHand.Wye, false, null));
        Assert.Contains("T1:     { turnout: wye }", wye, StringComparison.Ordinal);
        Assert.Contains("  - T1.left > main > end-stop\n  - T1.right > branch\n", wye, StringComparison.Ordinal);
        Assert.Contains("  T1.right: soldered      # hand made", wye, StringComparison.Ordinal);
        Assert.Contains("{ at: T1.left, rails: right }", wye, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_not_there_is_refused()
    {
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.Remove(Document, new("nowhere")));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.SetTurnout(Document, new("main"), TurnoutHand.Left, false, 6));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.SetFrog(Document, new("main"), FrogKind.Live, FrogFeed.None));
        Assert.IsType<TrackOutcome.Refused>(TrackEdits.Remove(LayoutDocument.Open("not a layout", "test"), new("x")));
    }

    private static LayoutDocument Document => LayoutDocument.Open(Text, "test");

    private static string Done(TrackOutcome outcome, string? sentence = null)
    {
        TrackOutcome.Done done = outcome switch
        {
            TrackOutcome.Done well => well,
            TrackOutcome.Refused refused => throw new Xunit.Sdk.XunitException(refused.Reason),
            _ => throw new Xunit.Sdk.XunitException(outcome.ToString()),
        };
        if (sentence is not null) Assert.Equal(sentence, done.Sentence);
        Assert.NotNull(LayoutFile.Read(done.Text, "test").Layout);
        return done.Text;
    }
}
