using UnitsNet;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Every kind of trackwork in every way it can be written, read and written again.</summary>
public sealed class TrackworkReadingTests
{
    public static TheoryData<string> Texts => [.. EveryPiece.ByText.Keys];

    [Theory]
    [MemberData(nameof(Texts))]
    public void A_piece_is_what_its_keys_say(string text) =>
        Assert.Equal(Dump.Of(EveryPiece.ByText[text]), Dump.Of(Read(EveryPiece.File(text)).Track[0]));

    [Theory]
    [MemberData(nameof(Texts))]
    public void A_piece_written_anew_is_read_back_equal(string text)
    {
        Layout layout = Read(EveryPiece.File(text));
        Assert.Equal(Dump.Of(layout), Dump.Of(Read(LayoutFile.Write(layout))));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void Adding_beside_a_piece_leaves_every_line_as_it_was(string text)
    {
        LayoutDocument document = LayoutDocument.Open(EveryPiece.File(text), "test");
        Layout layout = document.Reading.Layout!;
        Feeder feeder = new("f1", new(new("s"), 1), "east", "main", new Wire.Awg(20), Length.FromMeters(0.2)) { When = FirstPosition(layout.Track[0]) };
        LayoutDocument grown = document.WithWiring(layout.Wiring with { Feeders = [feeder] });
        Assert.Equal([feeder], grown.Reading.Layout!.Wiring.Feeders);
        string[] lines = grown.Text.Split('\n');
        Assert.All(document.Text.Split('\n'), line => Assert.Contains(line, lines));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void A_place_can_be_named_on_sections_and_bridges_only(string text)
    {
        string file = EveryPiece.File(text) + "  gaps: [ { at: u@100 } ]\n";
        bool hasPlaces = EveryPiece.ByText[text] is Piece.Section or Piece.Turntable or Piece.TransferTable;
        Assert.Equal(hasPlaces ? [] : ["WU1020"], LayoutFile.Read(file, "test").Problems.Select(problem => problem.Code));
    }

    [Theory]
    [MemberData(nameof(Texts))]
    public void Each_position_of_a_piece_can_be_named_and_no_other(string text)
    {
        Layout At(string position) => LayoutFile.Read(EveryPiece.File(text) + $"  gaps: [ {{ at: s@100, bridged-when: u.{position} }} ]\n", "test").Layout!;
        Assert.All(PiecePositions.Of(EveryPiece.ByText[text]), position =>
            Assert.Equal(new Setting(new("u"), position), Assert.Single(At(position).Wiring.Gaps).BridgedWhen));
        Assert.Null(At("elsewhere"));
    }

    [Fact]
    public void Frogs_of_all_kinds_take_the_default()
    {
        Layout layout = Read("""
            wireup: 1
            name: x
            longest-train: 1 m
            defaults: { frog: live }
            track:
              a: { turnout: left }
              b: { turnout: three-way }
              c: { crossing: 20 deg }
              d: { slip: double }
              e: { scissors: true }

            """);
        Assert.Equal(Enumerable.Repeat(FrogKind.Live, 5), layout.Track.Select(piece => piece switch
        {
            Piece.Turnout turnout => turnout.Frog,
            Piece.MultiTurnout turnout => turnout.Frog,
            Piece.Crossing crossing => crossing.Frog,
            Piece.Slip slip => slip.Frog,
            Piece.Scissors scissors => scissors.Frog,
            _ => throw new InvalidOperationException(piece.ToString()),
        }));
    }

    [Fact]
    public void A_contact_is_added_to_frogs_of_every_kind()
    {
        LayoutDocument document = LayoutDocument.Open(
            """
            wireup: 1
            name: x
            longest-train: 1 m
            defaults: { frog: isolated }
            track:
              a: { turnout: left }   # one
              b: { turnout: three-way, frog-feed: none }
              c: { crossing: 20 deg }
              d: { slip: double }
              e:
                scissors: true   # five

            """, "test");
        Layout layout = document.Reading.Layout!;
        string text = document.WithAdded(layout with { Track = [.. layout.Track.Select(Fed)] }).Text;
        Assert.Equal(
            """
              a: { turnout: left, frog-feed: contact }   # one
              b: { turnout: three-way, frog-feed: contact }
              c: { crossing: 20 deg, frog-feed: contact }
              d: { slip: double, frog-feed: contact }
              e:
                scissors: true   # five
                frog-feed: contact

            """, text[(text.IndexOf("track:\n", StringComparison.Ordinal) + 7)..]);
    }

    private static Piece Fed(Piece piece) => piece switch
    {
        Piece.Turnout turnout => turnout with { Feed = FrogFeed.Contact },
        Piece.MultiTurnout turnout => turnout with { Feed = FrogFeed.Contact },
        Piece.Crossing crossing => crossing with { Feed = FrogFeed.Contact },
        Piece.Slip slip => slip with { Feed = FrogFeed.Contact },
        Piece.Scissors scissors => scissors with { Feed = FrogFeed.Contact },
        _ => piece,
    };

    private static Setting? FirstPosition(Piece piece) =>
        PiecePositions.Of(piece) is [string first, ..] ? new Setting(piece.Id, first) : null;

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Equal([], reading.Problems.Select(problem => problem.ToString()));
        return reading.Layout!;
    }
}
