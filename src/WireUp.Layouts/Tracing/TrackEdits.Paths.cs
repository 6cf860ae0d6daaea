using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Tracing.Edits;

namespace WireUp.Layouts.Tracing;

/// <content>Edits of the points of a section's centre line, counted from 0 at end a.</content>
public static partial class TrackEdits
{
    /// <summary>
    /// Moves a point of a section's path. The ends of plain track that are joined there move along; an open end that comes within the
    /// snapping distance of other track meets it as that of a new line does.
    /// </summary>
    /// <param name="document">The layout file.</param>
    /// <param name="section">The section.</param>
    /// <param name="index">Which point of its path, from 0.</param>
    /// <param name="to">Where it goes.</param>
    /// <param name="snapMetres">The snapping distance of an open end, from 0 (it meets nothing) to 10 m.</param>
    /// <param name="answers">Answers given to questions of this edit.</param>
    public static TrackOutcome MovePoint(
        LayoutDocument document, PieceId section, int index, PlanPoint to, double snapMetres, ImmutableDictionary<string, string> answers) =>
        OnPath(document, section, index, (layout, piece, path) =>
        {
            TrackEnd? end = index == 0 ? piece.End("a") : index == path.Length - 1 ? piece.End("b") : null;
            TrackEnd? other = end is { } moved ? new LayoutIndex(layout).Opposite(moved) : null;
            SnapPlace place = end is not null && other is null && snapMetres > 0
                ? SnapPlace.Of(layout with { Track = layout.Track.Remove(piece) }, to, snapMetres)
                : new(to, true, null);
            if (place.Taken is { } taken)
            {
                return new TrackOutcome.Refused($"{taken} leads into trackwork already");
            }

            TrackChange change = PathChange(document, piece, path.SetItem(index, place.At));
            if (other is { } joined && new LayoutIndex(layout).Piece(joined.Piece) is Piece.Section neighbour && neighbour.Id != piece.Id
                && TrackPaths.Of(neighbour) is { Length: > 1 } beside)
            {
                change = Both(change, PathChange(document, neighbour, beside.SetItem(joined.Name == "a" ? 0 : beside.Length - 1, place.At)));
            }

            TrackOutcome.Done done = Following(document, layout, change, $"Moved a point of \"{section}\"");
            return place.IsFree ? done with { Sentence = done.Sentence + "." } : LineDrawing.Meet(done, [Rounded(place.At)], answers);
        });

    /// <summary>Puts a point into a section's path, to bend it there.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="section">The section.</param>
    /// <param name="at">The new point; it comes between the two points it is nearest to.</param>
    public static TrackOutcome AddPoint(LayoutDocument document, PieceId section, PlanPoint at) => OnPath(document, section, 0, (layout, piece, path) =>
    {
        (double along, _) = PathPoints.Nearest(path, at);
        double passed = 0;
        int index = 1;
        while (index < path.Length - 1 && passed + Polyline.Distance(path[index - 1], path[index]) < along)
        {
            passed += Polyline.Distance(path[index - 1], path[index]);
            index++;
        }

        return Following(document, layout, PathChange(document, piece, path.Insert(index, at)), $"Put a point into \"{section}\".");
    });

    /// <summary>Takes a point out of a section's path; its two ends stay.</summary>
    /// <param name="document">The layout file.</param>
    /// <param name="section">The section.</param>
    /// <param name="index">Which point, from 1 to the one before the last.</param>
    public static TrackOutcome RemovePoint(LayoutDocument document, PieceId section, int index) => OnPath(document, section, index, (layout, piece, path) =>
        index == 0 || index == path.Length - 1
            ? new TrackOutcome.Refused($"the two ends of \"{section}\" stay: move them, or remove the section")
            : Following(document, layout, PathChange(document, piece, path.RemoveAt(index)), $"Took a point out of \"{section}\"."));

    private static TrackOutcome OnPath(
        LayoutDocument document, PieceId section, int index, Func<Layout, Piece.Section, ImmutableArray<PlanPoint>, TrackOutcome> edit)
    {
        if (document.Reading.Layout is not { } layout)
        {
            return Unreadable(document);
        }

        if (layout.Track.FirstOrDefault(piece => piece.Id == section) is not Piece.Section found)
        {
            return new TrackOutcome.Refused($"\"{section}\" is not a section");
        }

        ImmutableArray<PlanPoint> path = TrackPaths.Of(found);
        return path.Length < 2 ? new TrackOutcome.Refused($"\"{section}\" has no path to edit")
            : index < 0 || index >= path.Length ? new TrackOutcome.Refused(string.Create(CultureInfo.InvariantCulture, $"\"{section}\" has points 0 to {path.Length - 1}, not {index}"))
            : Checked(edit(layout, found, path));
    }

    /// <summary>Another path; where no length is stated, the length changes with it.</summary>
    private static TrackChange PathChange(LayoutDocument document, Piece.Section section, ImmutableArray<PlanPoint> path)
    {
        TrackChange change = new() { Keys = [(section.Id, "path", PlanText.Of(new(document.Text)).Path(path))] };
        return section.LengthFromPath ? Resized(change, section, Polyline.Length([.. path.Select(Rounded)])) : change;
    }

    private static TrackChange Resized(TrackChange change, Piece piece, double metres) =>
        change with { Stretches = change.Stretches.Add(piece.Id, [new(piece.Id, 0, piece.PlacesMetres!.Value, metres)]) };

    /// <summary>
    /// Makes a change of lengths. Distances written in the file stay as they are written, from whichever end they count, so long as all of them still
    /// lie on their sections; where one does not, all places on those sections keep their shares of the way.
    /// </summary>
    private static TrackOutcome.Done Following(LayoutDocument document, Layout layout, TrackChange change, string sentence)
    {
        TrackChange asWritten = change with { Stretches = ImmutableDictionary<PieceId, ImmutableArray<Stretch>>.Empty };
        TrackOutcome.Done done = Rewritten(document, layout, asWritten, sentence);
        return done.Document.Reading.Layout is null ? Rewritten(document, layout, change, sentence) : done;
    }

    private static TrackChange Both(TrackChange one, TrackChange other) =>
        one with { Keys = [.. one.Keys, .. other.Keys], Stretches = one.Stretches.AddRange(other.Stretches) };

    private static PlanPoint Rounded(PlanPoint point) => new(Math.Round(point.X, 5), Math.Round(point.Y, 5));

    private static TrackOutcome.Done Rewritten(LayoutDocument document, Layout layout, TrackChange change, string sentence) =>
        new(TrackRewriter.Write(document, new(document.Text), layout, change), sentence);
}
