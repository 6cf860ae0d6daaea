using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Acceptance.Tests.Rules;

/// <summary>The club sample is the railway that docs/samples.md promises.</summary>
public sealed class ClubSampleTests
{
    private static readonly Layout Club = Read("sample-layouts/tarrow-valley.layout.yaml");

    private static readonly LayoutIndex Index = new(Club);

    [Fact]
    public void It_has_the_size_that_the_list_of_samples_states()
    {
        double metres = Club.Track.OfType<Piece.Section>().Sum(section => section.Length.Meters)
            + Club.Track.OfType<Piece.Turnout>().Sum(turnout => turnout.Length!.Value.Meters)
            + Club.Track.OfType<Piece.Crossing>().Sum(crossing => crossing.Length!.Value.Meters);

        Assert.Contains(
            FormattableString.Invariant(
                $"{Club.Track.Length} pieces and {metres:0} m of track, with {Club.Track.OfType<Piece.Turnout>().Count()} turnouts"),
            RepoFiles.ReadText("docs/samples.md"),
            StringComparison.Ordinal);
    }

    [Fact]
    public void Every_kind_of_frog_and_turnout_of_the_handbook_is_in_it()
    {
        Piece.Turnout[] turnouts = [.. Club.Track.OfType<Piece.Turnout>()];
        Assert.Equal(Enum.GetValues<TurnoutHand>(), turnouts.Select(turnout => turnout.Hand).Distinct().Order());
        Assert.Equal(Enum.GetValues<FrogKind>(), turnouts.Select(turnout => turnout.Frog).Distinct().Order());
        Assert.Single(Club.Track.OfType<Piece.Crossing>());
    }

    [Fact]
    public void Sixteen_locomotives_are_out_and_eight_move()
    {
        Assert.Equal(16, Club.Stock.Locomotives.Sum(kind => kind.Count));
        Assert.Equal(8, Club.Stock.MovingAtOnce);
    }

    [Fact]
    public void All_of_its_track_is_joined_up_and_nothing_is_wired()
    {
        Assert.All(Club.Track.SelectMany(piece => piece.Ends), end => Assert.NotNull(Index.JointAt(end)));
        Assert.Single(TrackGraph.Of(Index).Components());
        Assert.Equivalent(Wiring.None, Club.Wiring, strict: true);
    }

    [Fact]
    public void Three_places_reverse_and_the_double_track_and_sidings_do_not()
    {
        ParityGraph parity = ParityGraph.Of(Index);
        Assert.Equal(3, parity.OddWalks().Length);

        ImmutableHashSet<PieceId> reversing = [new("sedge-6"), new("fenn-4"), new("W3")];
        Assert.True(parity.IsBalancedWithout(reversing));
        Assert.All(reversing, one => Assert.False(parity.IsBalancedWithout(reversing.Remove(one))));
    }

    /// <summary>
    /// Euler: a connected graph drawn on a plane has pieces − joints + faces = 2. A face is what one walks round by always
    /// taking the next end clockwise; where the order of the ends cannot be had without one track passing over another,
    /// there are fewer faces.
    /// </summary>
    [Fact]
    public void It_can_be_drawn_without_a_track_passing_over_another() =>
        Assert.Equal(2, Club.Track.Length - Club.Joints.Length + Faces());

    private static int Faces()
    {
        HashSet<TrackEnd> walked = [];
        int faces = 0;
        foreach (TrackEnd start in Club.Track.SelectMany(piece => piece.Ends).Where(end => !walked.Contains(end)))
        {
            faces++;
            for (TrackEnd end = start; walked.Add(end); end = NextClockwise(Index.Opposite(end)!.Value))
            {
            }
        }

        return faces;
    }

    private static TrackEnd NextClockwise(TrackEnd end)
    {
        Piece piece = Index.Piece(end.Piece);
        ImmutableArray<string> clockwise = piece switch
        {
            Piece.Turnout turnout => ["points", turnout.LeftLeg, turnout.RightLeg],
            Piece.Crossing => ["a1", "b2", "a2", "b1"],
            _ => piece.EndNames,
        };
        return piece.End(clockwise[(clockwise.IndexOf(end.Name) + 1) % clockwise.Length]);
    }

    private static Layout Read(string file)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText(file), file);
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }
}
