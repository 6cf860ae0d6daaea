using System.Collections.Immutable;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>benchwork:</c>: boards, corridors for the bus, and where no hand comes to from below.</summary>
internal sealed class BenchworkReader(ReadContext context, PieceTable pieces)
{
    private const string OutlineExpected = "a list of at least three points, for instance [[0, 0], [900, 0], [900, 600]]";

    private const string PathExpected = "a list of at least two points, for instance [[0, 0], [900, 0]]";

    private readonly PlanReader _plan = new(context);

    public Benchwork Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return Benchwork.None;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Benchwork, entry.Key.Start);
        ImmutableArray<TextEntry> corridors = Checked(map.Named("corridors", "a mapping of corridors by name"));
        Benchwork read = new()
        {
            Boards = Outlines(map, "boards"),
            Corridors = [.. corridors.Select(ReadCorridor).OfType<BusCorridor>()],
            OutOfReach = Outlines(map, "out-of-reach"),
        };
        return IsTooLarge(read, entry) || !HasPaths(read, entry) ? Benchwork.None : Together(read, corridors);
    }

    private ImmutableArray<TextEntry> Checked(ImmutableArray<TextEntry> named) => [.. named.Where(each => Names.Check(each.Key, context))];

    private ImmutableArray<PlanOutline> Outlines(MapReader map, string key)
    {
        ImmutableArray<PlanOutline>.Builder outlines = ImmutableArray.CreateBuilder<PlanOutline>();
        foreach (TextEntry entry in Checked(map.Named(key, "a mapping of outlines by name")))
        {
            if (entry.Value is TextNode.Sequence { Items.Length: > 2 } list)
            {
                outlines.Add(new(entry.Key.Value, [.. list.Items.Select(_plan.Point).OfType<PlanPoint>()]));
            }
            else
            {
                context.WrongShape(entry.Value, $"the outline \"{entry.Key.Value}\"", OutlineExpected);
            }
        }

        return outlines.ToImmutable();
    }

    private BusCorridor? ReadCorridor(TextEntry entry)
    {
        MapReader map = new(context, entry.Value, FormatKeys.Corridor, entry.Key.Start);
        bool closed = map.Flag("closed") ?? false;
        if (map.Require("path", PathExpected) is not { } path)
        {
            return null;
        }

        if (path.Value is not TextNode.Sequence { Items.Length: > 1 } list)
        {
            context.WrongShape(path.Value, $"the path of corridor \"{entry.Key.Value}\"", PathExpected);
            return null;
        }

        ImmutableArray<PlanPoint> points = [.. list.Items.Select(_plan.Point).OfType<PlanPoint>()];
        if (points.Length == list.Items.Length && points.Distinct().Count() < 2)
        {
            context.WrongShape(path.Value, $"a path of one point", PathExpected);
        }

        return points.Distinct().Count() < 2 ? null : new(entry.Key.Value, points) { Closed = closed };
    }

    private bool IsTooLarge(Benchwork read, TextEntry entry)
    {
        int points = read.Corridors.Sum(corridor => corridor.Path.Length) + read.Boards.Concat(read.OutOfReach).Sum(outline => outline.Corners.Length);
        if (points > LayoutLimits.BenchworkPoints)
        {
            context.Add(LayoutRules.LimitPassed, entry.Key.Start, entry.Key.Value, "the benchwork has too many points",
                string.Create(System.Globalization.CultureInfo.InvariantCulture, $"at most {LayoutLimits.BenchworkPoints} points"));
        }

        return points > LayoutLimits.BenchworkPoints;
    }

    /// <summary>Without the paths of the track nobody knows how the benchwork lies to it.</summary>
    private bool HasPaths(Benchwork read, TextEntry entry)
    {
        if (read.IsEmpty || TrackPaths.Missing(pieces.Track) is not [var first, ..] missing)
        {
            return true;
        }

        string what = missing.Length == 1
            ? $"section \"{first}\" has no path"
            : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{missing.Length} sections have no path, among them \"{first}\"");
        context.Add(LayoutRules.MissingKey, entry.Key.Start, entry.Key.Value, $"nobody can tell how the benchwork lies to the track: {what}",
            "path: [[0, 0], [900, 0]] for every section, its centre line on the same plan");
        return false;
    }

    private Benchwork Together(Benchwork read, ImmutableArray<TextEntry> corridors)
    {
        foreach (string apart in CorridorMap.Of(read, []).Apart())
        {
            TextNode.Scalar key = corridors.First(entry => entry.Key.Value == apart).Key;
            context.Add(LayoutRules.CorridorApart, key.Start, apart, $"corridor \"{apart}\" meets neither \"{read.Corridors[0].Name}\" nor a corridor that leads to it",
                "a path that crosses another corridor, or ends on it, within reach from below");
        }

        return read;
    }
}
