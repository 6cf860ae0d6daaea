using System.Collections.Immutable;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Tracing.Junctions;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>A way out of a place of a section: towards its end b, or towards its end a.</summary>
/// <param name="Section">The section.</param>
/// <param name="At">How far along its centre line the place is, in metres of the plan.</param>
/// <param name="Forward">Whether the way leads towards end b.</param>
internal sealed record Way(Piece.Section Section, double At, bool Forward)
{
    /// <summary>The centre line of the way.</summary>
    public Branch Branch()
    {
        ImmutableArray<PlanPoint> path = TrackPaths.Of(Section);
        return new(Forward ? Polyline.Part(path, At, Polyline.Length(path)) : [.. Polyline.Part(path, 0, At).Reverse()]);
    }
}

/// <summary>
/// Sections cut at places where a piece of trackwork goes in: each way out of the place is shortened by what the piece takes of it, and
/// joined to one of its ends.
/// </summary>
internal sealed class TrackCut(Layout layout, PlanText plan)
{
    /// <summary>The change that puts a piece in.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="text">Its text.</param>
    /// <param name="ways">The ways out, each with the end of the piece that it is joined to, and how much of it the piece takes.</param>
    public TrackChange PutIn(PieceId name, Snippet.Map text, ImmutableArray<(Way Way, string End, double Takes)> ways)
    {
        NewNames names = new(layout);
        TrackChange change = new() { Added = [(name, text)] };
        foreach (var ofSection in ways.GroupBy(way => way.Way.Section.Id))
        {
            change = Cut(change, [.. ofSection.OrderBy(way => way.Way.At).ThenBy(way => way.Way.Forward)], name, names);
        }

        return change;
    }

    private TrackChange Cut(TrackChange change, ImmutableArray<(Way Way, string End, double Takes)> ways, PieceId piece, NewNames names)
    {
        Piece.Section section = ways[0].Way.Section;
        ImmutableArray<PlanPoint> path = TrackPaths.Of(section);
        double whole = Polyline.Length(path);
        double scale = section.Length.Meters / whole;
        List<(TrackEnd, TrackEnd)> joined = [];
        List<Stretch> stretches = [];
        List<ImmutableArray<PlanPoint>> paths = [];
        double from = 0;
        PieceId part = section.Id;
        string? begins = null;
        foreach (var way in ways)
        {
            if (way.Way.Forward)
            {
                (from, begins) = (way.Way.At + way.Takes, way.End);
                continue;
            }

            Add(way.Way.At - way.Takes);
            joined.Add((new(part, "b"), new(piece, way.End)));
            part = names.Beside(section.Id);
        }

        bool goesOn = ways[^1].Way.Forward;
        if (goesOn)
        {
            Add(whole);
        }

        return Described(change, section, stretches, paths) with { Joined = [.. change.Joined, .. joined], Parted = change.Parted.Union(Parted(ways, section, whole)) };

        void Add(double to)
        {
            stretches.Add(new(part, from * scale, to * scale, (to - from) * scale));
            paths.Add(Polyline.Part(path, from, to));
            if (begins is not null)
            {
                joined.Add((new(piece, begins), new(part, "a")));
            }

            begins = null;
        }
    }

    /// <summary>Joints at the ends of a section that are at the place itself, and so give way to the piece.</summary>
    private static IEnumerable<TrackEnd> Parted(ImmutableArray<(Way Way, string End, double Takes)> ways, Piece.Section section, double whole) =>
        ways.Where(way => way.Way.At <= 0 || way.Way.At >= whole).Select(way => section.End(way.Way.At <= 0 ? "a" : "b"));

    private TrackChange Described(TrackChange change, Piece.Section section, List<Stretch> stretches, List<ImmutableArray<PlanPoint>> paths)
    {
        List<(PieceId, string, string?)> keys = [.. change.Keys, (section.Id, "path", plan.Path(paths[0]))];
        if (!section.LengthFromPath)
        {
            keys.Add((section.Id, "length", LengthText.Write(Math.Round(stretches[0].LengthMetres, 5))));
        }

        PieceId last = stretches[^1].Piece;
        return change with
        {
            Keys = [.. keys],
            Added = [.. change.Added, .. stretches.Select((stretch, i) => (stretch.Piece, Text(section, stretch, paths[i]))).Skip(1)],
            AddedSections = change.AddedSections.Union(stretches.Skip(1).Select(stretch => stretch.Piece)),
            MovedEnds = last == section.Id ? change.MovedEnds : change.MovedEnds.Add(section.End("b"), new(last, "b")),
            Stretches = change.Stretches.Add(section.Id, [.. stretches]),
        };
    }

    private Snippet.Map Text(Piece.Section section, Stretch stretch, ImmutableArray<PlanPoint> path) => Snippet.Of(
        ("length", section.LengthFromPath ? null : LengthText.Write(Math.Round(stretch.LengthMetres, 5))),
        ("rail", section.Rail is { } rail ? PieceText.Of(rail).Flow : null),
        ("lift-out", section.LiftOut ? "true" : null),
        ("path", plan.Path(path)));
}
