using System.Collections.Immutable;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;
using WireUp.Layouts.Tracing.Edits;

namespace WireUp.Layouts.Tracing;

/// <summary>
/// Edits of the track as one makes them on a drawing, from the text of a layout file to its new text: comments, order, wiring and keys
/// the program does not know are kept. An edit that would leave a file with errors is refused.
/// </summary>
public static partial class TrackEdits
{
    /// <summary>Most points of one line.</summary>
    public const int MostPoints = 10_000;

    /// <summary>
    /// Adds a line of track. An end within the snapping distance of another end is joined to it, with a turnout where three come
    /// together; an end near the inside of a section divides that section with a turnout; where the line crosses other track, it asks.
    /// </summary>
    /// <param name="document">The layout file; it may be one without any track yet.</param>
    /// <param name="points">The centre line, two different points or more, in metres of the plan.</param>
    /// <param name="snapMetres">The snapping distance, from 0 to 10 m.</param>
    /// <param name="answers">Answers given to questions of this edit, by <see cref="TrackQuestion.Id"/>.</param>
    public static TrackOutcome AddLine(LayoutDocument document, ImmutableArray<PlanPoint> points, double snapMetres, ImmutableDictionary<string, string> answers)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(snapMetres);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(snapMetres, 10);
        if (TroubleOf(points) is { } trouble)
        {
            return new TrackOutcome.Refused(trouble);
        }

        ImmutableArray<PlanPoint> line = [.. points.Where((point, i) => i == 0 || point != points[i - 1])];
        return LayoutOf(document) is { } layout
            ? Checked(new LineDrawing(document, layout, snapMetres).Draw(line, answers))
            : Unreadable(document);
    }

    private static string? TroubleOf(ImmutableArray<PlanPoint> points) =>
        points.Distinct().Count() < 2 ? "a line has two different points or more"
        : points.Length > MostPoints ? $"the line has {points.Length} points, at most {MostPoints} are taken"
        : points.All(point => Reading.Range.Plan.Holds(point.X) && Reading.Range.Plan.Holds(point.Y)) ? null
        : $"a point of the line is not {Reading.Range.Plan.Words}";

    /// <summary>The layout, or one with nothing in it where the text is all right but for having no track yet; null where the text has errors.</summary>
    private static Layout? LayoutOf(LayoutDocument document)
    {
        if (document.Reading.Layout is { } layout)
        {
            return layout;
        }

        ProblemList problems = new("");
        return TextTreeBuilder.Build(document.Text.TrimStart(LayoutReader.ByteOrderMark), problems) is TextNode.Mapping root && !problems.HasErrors
            && Value(root, "track") is null or TextNode.Scalar { IsNull: true } or TextNode.Mapping { Entries: [] }
            ? new Layout
            {
                Name = "",
                LongestTrain = UnitsNet.Length.Zero,
                ShortestPickup = UnitsNet.Length.Zero,
                Scale = ScaleTable.FindOrUsual((Value(root, "scale") as TextNode.Scalar)?.Value ?? "").Name,
            }
            : null;
    }

    private static TextNode? Value(TextNode.Mapping root, string key) => root.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;

    private static TrackOutcome.Refused Unreadable(LayoutDocument document) =>
        new($"the file has errors, the first in line {document.Reading.Problems[0].Line}: {document.Reading.Problems[0].Message}");

    /// <summary>What comes out must read without errors, whatever went in.</summary>
    private static TrackOutcome Checked(TrackOutcome outcome) => outcome is TrackOutcome.Done { Document.Reading: { Layout: null } after }
        ? new TrackOutcome.Refused($"it would leave the file with an error: {after.Problems.First(problem => problem.Severity == ProblemSeverity.Error).Message}")
        : outcome;
}
