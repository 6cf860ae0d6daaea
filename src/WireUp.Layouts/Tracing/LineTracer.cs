using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Tracing.Junctions;
using WireUp.Layouts.Tracing.Lines;

namespace WireUp.Layouts.Tracing;

/// <summary>
/// Makes a layout of the centre lines of a drawing: ends that touch go on into each other, a line that ends on another leaves it by a turnout, and
/// where two lines cross there is a crossing unless an answer says otherwise. The same lines give the same layout.
/// </summary>
public static class LineTracer
{
    /// <summary>Sections shorter than this are not kept; the format has none.</summary>
    private const double Shortest = 0.003;

    /// <summary>Traces lines.</summary>
    /// <param name="lines">The lines, in metres of the plan; lines of fewer than two different points are passed over.</param>
    /// <param name="tracing">What else is to be known.</param>
    /// <returns>The layout; or why there is none, one sentence without a full stop.</returns>
    public static (TracedLayout? Traced, string? Trouble) Trace(ImmutableArray<ImmutableArray<PlanPoint>> lines, LineTracing tracing)
    {
        ArgumentNullException.ThrowIfNull(tracing);
        if (Trouble(lines, tracing) is { } trouble)
        {
            return (null, trouble);
        }

        List<string> notes = [];
        ImmutableArray<ImmutableArray<PlanPoint>> clean = Clean(lines, tracing.SnapMetres, notes);
        if (clean.IsEmpty)
        {
            return (null, $"there is no line longer than {tracing.SnapMetres * 1000:0.##} mm");
        }

        return LineNodesWorkspace.Of(clean, tracing.SnapMetres) is { } nodes
            ? (Traced(clean, nodes, tracing, notes), null)
            : (null, $"the lines meet at more than {LineTracing.MostMeetings} places");
    }

    private static string? Trouble(ImmutableArray<ImmutableArray<PlanPoint>> lines, LineTracing tracing) =>
        tracing.SnapMetres is not (>= 0.001 and <= 1) ? "the snapping distance is from 1 mm to 1 m"
        : lines.Length > LineTracing.MostLines ? $"there are {lines.Length} lines, at most {LineTracing.MostLines} are traced"
        : lines.Sum(line => (long)line.Length) > LineTracing.MostPoints ? $"the lines have {lines.Sum(line => (long)line.Length)} points, at most {LineTracing.MostPoints} are traced"
        : lines.SelectMany(line => line).All(point => Reading.Range.Plan.Holds(point.X) && Reading.Range.Plan.Holds(point.Y)) ? null
        : $"a point is not {Reading.Range.Plan.Words}: is the size of the drawing right?";

    private static ImmutableArray<ImmutableArray<PlanPoint>> Clean(ImmutableArray<ImmutableArray<PlanPoint>> lines, double snap, List<string> notes)
    {
        HashSet<string> seen = new(StringComparer.Ordinal);
        List<ImmutableArray<PlanPoint>> kept = [];
        (int shorter, int twice) = (0, 0);
        foreach (ImmutableArray<PlanPoint> line in lines)
        {
            ImmutableArray<PlanPoint> points = [.. line.Where((point, i) => i == 0 || point != line[i - 1])];
            if (points.Length < 2 || Polyline.Length(points) <= Math.Max(snap, Shortest)) shorter++;
            else if (!seen.Add(Key(points)) | !seen.Add(Key([.. points.Reverse()])) && !IsPalindrome(points)) twice++;
            else kept.Add(points);
        }

        if (shorter > 0) notes.Add($"{Count(shorter, "line")} of {Math.Max(snap, Shortest) * 1000:0.##} mm or less left out");
        if (twice > 0) notes.Add($"{Count(twice, "line")} drawn twice taken once");
        return [.. kept];
    }

    private static bool IsPalindrome(ImmutableArray<PlanPoint> points) => points.SequenceEqual(points.Reverse());

    private static string Key(ImmutableArray<PlanPoint> points) =>
        string.Join(' ', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.X:0.0000},{point.Y:0.0000}")));

    private static TracedLayout Traced(ImmutableArray<ImmutableArray<PlanPoint>> lines, ImmutableArray<LineNode> nodes, LineTracing tracing, List<string> notes)
    {
        double gauge = ScaleTable.FindOrUsual(tracing.Scale).Gauge.Meters;
        ImmutableArray<TracedTrack> parts = LineTracks.Of(lines, nodes, TracedTurnout.ReachOverGauge * gauge);
        ImmutableArray<TrackTip[]> tips = LineTracks.TipsByNode(parts, nodes.Length);
        NodeReader reader = new(gauge, gauge * Constants.Get("turnout-heel-spread-over-gauge").Value, tracing.Answers);
        ImmutableArray<NodeVerdict> verdicts =
        [
            .. nodes.Select((node, i) => reader.Read(node.At, [.. tips[i].Select(tip => LineTracks.Branch(parts[tip.Track], tip.AtStart))])),
        ];
        TracedLayoutBuilder builder = new(LineTracks.Merged(parts, verdicts.SelectMany((verdict, i) => verdict.Passes.Select(pass => (tips[i][pass.First], tips[i][pass.Second])))));
        for (int node = 0; node < nodes.Length; node++)
        {
            builder.Add(verdicts[node], tips[node]);
        }

        ImmutableArray<TakenAnswer> questions = [.. verdicts.Select(verdict => verdict.Question).OfType<TakenAnswer>()];
        Layout layout = new()
        {
            Name = tracing.Name,
            Scale = tracing.Scale,
            Control = tracing.Control,
            LongestTrain = tracing.LongestTrain,
            ShortestPickup = ScaleTable.FindOrUsual(tracing.Scale).Pickup,
            Track = builder.Track(),
            Joints = builder.Joints(),
        };
        foreach (string unknown in tracing.Answers.Keys.Except(questions.Where(question => question.WasGiven).Select(question => question.Question.Id)).Order(StringComparer.Ordinal))
        {
            notes.Add($"the answer \"{unknown}={tracing.Answers[unknown]}\" fits no question");
        }

        return new(layout, questions, [.. notes]);
    }

    private static string Count(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
