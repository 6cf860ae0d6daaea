using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Tracing.Edits;

namespace WireUp.Layouts.Tracing;

/// <content>Edits of whole pieces.</content>
public static partial class TrackEdits
{
    /// <summary>
    /// Takes a piece out, with the joints at its ends and what is soldered to it or cut in it. Where plain track meets two ends of a turnout
    /// and nothing its third, the two are joined, and the track between them closed.
    /// </summary>
    /// <param name="document">The layout file.</param>
    /// <param name="piece">The piece.</param>
    public static TrackOutcome Remove(LayoutDocument document, PieceId piece) => OnPiece(document, piece, (layout, found) =>
    {
        if (layout.Track.Length == 1)
        {
            return new TrackOutcome.Refused($"\"{piece}\" is the last piece: a layout has one at least");
        }

        if (layout.Wiring.Feeders.FirstOrDefault(feeder => feeder.When?.Owner == piece) is { } switched)
        {
            return new TrackOutcome.Refused($"feeder \"{switched.Name}\" conducts only at a position of \"{piece}\": change the feeder first");
        }

        if (layout.Wiring.Gaps.FirstOrDefault(gap => gap.BridgedWhen?.Owner == piece) is { } bridged)
        {
            return new TrackOutcome.Refused($"the gap at {bridged.At} is bridged at a position of \"{piece}\": change the gap first");
        }

        string[] feeders = [.. layout.Wiring.Feeders.Where(feeder => feeder.At.Section == piece).Select(feeder => $"feeder \"{feeder.Name}\"")];
        LayoutIndex index = new(layout);
        int gaps = layout.Wiring.Gaps.Count(gap => gap.At switch
        {
            GapPlace.InSection within => within.Place.Section == piece,
            GapPlace.InJoint joint => joint.End.Piece == piece || index.Opposite(joint.End)?.Piece == piece,
            _ => false,
        });
        string[] lost = [.. feeders, .. gaps switch { 0 => Array.Empty<string>(), 1 => ["a gap"], _ => [string.Create(CultureInfo.InvariantCulture, $"{gaps} gaps")] }];
        return Rewritten(document, layout, TrackHealing.Of(document, layout, found), $"Took out \"{piece}\"{(lost.Length == 0 ? "" : " with " + string.Join(", ", lost))}.");
    });

    /// <summary>Gives a piece another name, wherever the file names it.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="piece">The piece.</param>
    /// <param name="name">Its new name.</param>
    public static TrackOutcome Rename(LayoutDocument document, PieceId piece, string name) => OnPiece(document, piece, (layout, _) =>
        !Names.IsTight(name) ? new TrackOutcome.Refused($"\"{Text.ProblemList.Shorten(name)}\" cannot be a name: letters, digits, hyphens and underscores, the first a letter or digit")
        : layout.Track.Any(other => other.Id.Name == name) || layout.Wiring.Switches.Any(hand => hand.Name.Name == name) ? new TrackOutcome.Refused($"there is a \"{name}\" already")
        : Rewritten(document, layout, new() { Renamed = ImmutableDictionary<PieceId, PieceId>.Empty.Add(piece, new(name)) }, $"Renamed \"{piece}\" to \"{name}\"."));

    /// <summary>States the length of a piece; or, of a section with a path, takes the stated length out, so that it is as long as its path.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="piece">The piece.</param>
    /// <param name="length">The length, or null for that of the path, or of trackwork for none.</param>
    public static TrackOutcome SetLength(LayoutDocument document, PieceId piece, Length? length) => OnPiece(document, piece, (layout, found) =>
    {
        if (length is null && found is not Piece.Section { Path.Length: > 1 } && found is Piece.Section or Piece.Turntable or Piece.TransferTable)
        {
            return new TrackOutcome.Refused($"\"{piece}\" has no path that could tell its length");
        }

        TrackChange change = new() { Keys = [(piece, "length", length is { } given ? LengthText.Write(given) : null)] };
        double? now = length?.Meters ?? (found is Piece.Section section ? Polyline.Length(section.Path) : null);
        if (now is { } metres && found.PlacesMetres is not null)
        {
            change = Resized(change, found, metres);
        }

        return Following(document, layout, change, length is { } stated ? $"\"{piece}\" is {LengthText.Write(stated)} long." : $"No length is stated for \"{piece}\" any more.");
    });

    /// <summary>Says what the frogs of a piece are.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="piece">A turnout, crossing, slip or scissors crossover.</param>
    /// <param name="frog">The frog.</param>
    /// <param name="feed">Who feeds it.</param>
    public static TrackOutcome SetFrog(LayoutDocument document, PieceId piece, FrogKind frog, FrogFeed feed) => OnPiece(document, piece, (layout, found) =>
        found is Piece.Section or Piece.Stop or Piece.Turntable or Piece.TransferTable
            ? new TrackOutcome.Refused($"\"{piece}\" has no frog")
            : Rewritten(document, layout, new()
            {
                Keys = [(piece, "frog", Words.Of(Words.Frog, frog)), (piece, "frog-feed", feed == FrogFeed.None ? null : Words.Of(Words.FrogFeed, feed))],
            }, $"The frog of \"{piece}\" is {Words.Of(Words.Frog, frog)}{(feed == FrogFeed.None ? "" : $", fed by a {Words.Of(Words.FrogFeed, feed)}")}."));

    /// <summary>Says which way a turnout diverges, and its number.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="piece">A turnout with two legs.</param>
    /// <param name="hand">Which way it diverges. From a right-hand to a left-hand turnout what was on the diverging leg stays on it.</param>
    /// <param name="curved">Whether both legs curve to that side.</param>
    /// <param name="number">The frog number, or null where it is not known.</param>
    public static TrackOutcome SetTurnout(LayoutDocument document, PieceId piece, TurnoutHand hand, bool curved, double? number) => OnPiece(document, piece, (layout, found) =>
    {
        if (found is not Piece.Turnout turnout)
        {
            return new TrackOutcome.Refused($"\"{piece}\" is not a turnout with two legs");
        }

        if (hand == TurnoutHand.Wye && curved)
        {
            return new TrackOutcome.Refused("a wye is not curved to one side");
        }

        TrackChange change = new()
        {
            Keys =
            [
                (piece, "turnout", Words.Of(Words.Turnout, hand)),
                (piece, "curved", curved ? "true" : null),
                (piece, "number", number is { } given ? given.ToString("0.###", CultureInfo.InvariantCulture) : null),
            ],
            MovedEnds = Legs(turnout, hand),
        };
        return Rewritten(document, layout, change, $"\"{piece}\" is a {(hand == TurnoutHand.Wye ? "wye" : $"{(curved ? "curved " : "")}{Words.Of(Words.Turnout, hand)}-hand turnout")}.");
    });

    /// <summary>Between a turnout and a wye the legs change their names: each keeps what is joined to it, by the side on which it lies.</summary>
    private static ImmutableDictionary<TrackEnd, TrackEnd> Legs(Piece.Turnout turnout, TurnoutHand hand)
    {
        if ((turnout.Hand == TurnoutHand.Wye) == (hand == TurnoutHand.Wye))
        {
            return ImmutableDictionary<TrackEnd, TrackEnd>.Empty;
        }

        Piece.Turnout now = new(turnout.Id, hand, turnout.Frog);
        return ImmutableDictionary<TrackEnd, TrackEnd>.Empty
            .Add(turnout.End(turnout.LeftLeg), now.End(now.LeftLeg))
            .Add(turnout.End(turnout.RightLeg), now.End(now.RightLeg));
    }

    private static TrackOutcome OnPiece(LayoutDocument document, PieceId piece, Func<Layout, Piece, TrackOutcome> edit) =>
        document.Reading.Layout is not { } layout ? Unreadable(document)
        : layout.Track.FirstOrDefault(each => each.Id == piece) is not { } found ? new TrackOutcome.Refused($"there is no piece \"{piece}\"")
        : Checked(edit(layout, found));
}
