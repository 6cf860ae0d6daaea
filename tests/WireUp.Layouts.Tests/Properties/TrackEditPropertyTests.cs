using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Tracing;

namespace WireUp.Layouts.Tests.Properties;

/// <summary>A drawn line changes only what it meets: wires stay where they are soldered, comments where they stand, whatever is drawn in which style of file.</summary>
public sealed class TrackEditPropertyTests
{
    private const double Unit = 0.0254;

    [Fact]
    public void Wires_stay_where_they_are_soldered_when_lines_divide_the_track() => Gen.Select(Gen.Int[0, 1_000_000], Gen.Bool, Gen.Bool).Sample((seed, isFlow, isStated) =>
    {
        Random random = new(seed);
        LayoutDocument document = LayoutDocument.Open(File(random, isFlow, isStated), "x");
        Assert.Equal([], document.Reading.Problems);
        Dictionary<string, PlanPoint> before = Soldered(document.Reading.Layout!);
        string[] comments = Comments(document.Text);
        int turnouts = 0;
        for (int i = 0; i < 3; i++)
        {
            // Each in a stretch of its own, so that no turnout takes the room of another.
            double at = 1 + (2 * i) + (0.5 * random.NextDouble());
            TrackOutcome outcome = TrackEdits.AddLine(document, [new(at, 0.002), new(at + 1.5, random.Next(2) == 0 ? 0.25 : -0.25)], 0.01, ImmutableDictionary<string, string>.Empty);
            TrackOutcome.Done done = outcome as TrackOutcome.Done ?? throw new Xunit.Sdk.XunitException($"{outcome}\n{document.Text}");
            document = LayoutDocument.Open(done.Text, "x");
            turnouts++;
        }

        Layout after = document.Reading.Layout!;
        Assert.Equal(turnouts, after.Track.OfType<Piece.Turnout>().Count());
        Assert.Equal(comments, Comments(document.Text));
        TrackPaths paths = new(after);
        foreach ((string name, PlanPoint now) in Soldered(after))
        {
            double moved = Polyline.Distance(before[name], now);
            // What lay on the metal of a turnout comes to its nearer end, at most half a turnout away.
            double most = after.Track.OfType<Piece.Turnout>().Any(turnout => IsOn(after, turnout, before[name])) ? 0.2 : 0.0005;
            Assert.True(moved <= most, $"{name} moved by {moved} m\n{document.Text}");
        }

        Assert.Equal(before.Count, Soldered(after).Count);
    }, iter: 40, threads: 1);

    [Fact]
    public void A_line_drawn_and_taken_out_again_leaves_the_wires_where_they_were() => Gen.Select(Gen.Int[0, 1_000_000], Gen.Bool, Gen.Bool).Sample((seed, isFlow, isStated) =>
    {
        LayoutDocument document = LayoutDocument.Open(File(new Random(seed), isFlow, isStated), "x");
        Dictionary<string, PlanPoint> before = Soldered(document.Reading.Layout!);
        foreach (Func<LayoutDocument, TrackOutcome> edit in new Func<LayoutDocument, TrackOutcome>[]
        {
            open => TrackEdits.AddLine(open, [new(3.2, 0), new(4.2, 0.2)], 0.01, ImmutableDictionary<string, string>.Empty),
            open => TrackEdits.Remove(open, new("track-1")),
            open => TrackEdits.Remove(open, new("T1")),
        })
        {
            document = LayoutDocument.Open(Assert.IsType<TrackOutcome.Done>(edit(document)).Text, "x");
        }

        Layout after = document.Reading.Layout!;
        Assert.Equal(7.0, after.Track.OfType<Piece.Section>().Sum(section => Polyline.Length(section.Path)), 1e-4);
        foreach ((string name, PlanPoint now) in Soldered(after)) Assert.InRange(Polyline.Distance(before[name], now), 0, 0.2);
    }, iter: 20, threads: 1);

    private static bool IsOn(Layout layout, Piece.Turnout turnout, PlanPoint at)
    {
        TrackEnd stem = new LayoutIndex(layout).Opposite(turnout.End("points"))!.Value;
        PlanPoint points = Support.TracedShape.Point((Piece.Section)new LayoutIndex(layout).Piece(stem.Piece), stem.Name);
        return at.X >= points.X - 1e-4 && at.X <= points.X + turnout.Length!.Value.Meters + 1e-4;
    }

    private static Dictionary<string, PlanPoint> Soldered(Layout layout)
    {
        TrackPaths paths = new(layout);
        return layout.Wiring.Feeders.ToDictionary(feeder => feeder.Name, feeder => paths.PointAt(feeder.At)!.Value);
    }

    private static string[] Comments(string text) => [.. text.Split('\n').Where(line => line.Contains('#', StringComparison.Ordinal)).Select(line => line[line.IndexOf('#', StringComparison.Ordinal)..].TrimEnd('\r'))];

    /// <summary>One straight of 7 m in inches, with feeders at random places counted from either end.</summary>
    private static string File(Random random, bool isFlow, bool isStated)
    {
        string end = random.Next(2) == 0 ? "\n" : "\r\n";
        string length = isStated ? "length: 6.5 m, " : "";
        double most = isStated ? 6.5 : 7;
        string path = string.Create(CultureInfo.InvariantCulture, $"path: [[0, 0], [{3 / Unit:R}, 0], [{7 / Unit:R}, 0]]");
        string section = isFlow ? $"  s: {{ {length}{path} }}   # the straight" : $"  s:   # the straight{end}    {(isStated ? $"length: 6.5 m   # by tape{end}    " : "")}{path}";
        IEnumerable<string> feeders = Enumerable.Range(1, 6).Select(i =>
        {
            double at = 0.1 + (random.NextDouble() * (most - 0.2));
            string place = string.Create(CultureInfo.InvariantCulture, $"s@{(random.Next(2) == 0 ? at : at - most):0.###} m");
            return $"    f{i}: {{ at: {place}, bus: cab, district: all, wire: 20 AWG, length: 8 }}   # feeder {i}";
        });
        return string.Join(end,
        [
            "# a file in inches", "wireup: 1", "name: x", "units: in", "longest-train: 1 m", "track:", section, "joined: []", "wiring:",
            "  boosters: { cab: { amps: 5 A } }", "  districts: { all: { booster: cab, trip: 3 A } }", "  feeders:", .. feeders, "",
        ]);
    }
}
