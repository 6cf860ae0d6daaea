using System.Collections.Immutable;
using WireUp.Layouts.Plans;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>A place on one of the lines.</summary>
/// <param name="Line">The line, by its number.</param>
/// <param name="Along">Distance along it, in metres.</param>
internal readonly record struct LinePlace(int Line, double Along);

/// <summary>A point of the plan where lines meet, cross or end.</summary>
/// <param name="At">The point.</param>
/// <param name="Places">The places of the lines that lie there.</param>
internal sealed record LineNode(PlanPoint At, ImmutableArray<LinePlace> Places);

/// <summary>Finds where lines meet: at their ends, where an end lies on another line, and where lines cross.</summary>
internal sealed class LineNodesWorkspace
{
    // A line that runs into another seldom ends exactly on it: a crossing this near to where its end meets that line, in snapping distances, is no crossing.
    private const double Overshoot = 4;

    private readonly ImmutableArray<ImmutableArray<PlanPoint>> _lines;
    private readonly double[] _lengths;
    private readonly double _snap;
    private readonly List<(PlanPoint At, LinePlace Place)> _places = [];
    private readonly Dictionary<(int Line, int Other), List<PlanPoint>> _onto = [];
    private readonly List<int> _group = [];

    private LineNodesWorkspace(ImmutableArray<ImmutableArray<PlanPoint>> lines, double snap) =>
        (_lines, _lengths, _snap) = (lines, [.. lines.Select(Polyline.Length)], snap);

    /// <summary>The nodes of some lines, from left to right; null where they meet at more places than are taken. Every end of a line is at a node.</summary>
    public static ImmutableArray<LineNode>? Of(ImmutableArray<ImmutableArray<PlanPoint>> lines, double snapMetres)
    {
        LineNodesWorkspace nodes = new(lines, snapMetres);
        ImmutableArray<Piece> strokes = nodes.Strokes();
        nodes.AddEnds();
        nodes.AddEndsOnLines(strokes);
        nodes.AddCrossings(strokes);
        return nodes.HasTooMany ? null : nodes.Grouped();
    }

    /// <summary>A straight piece of a line.</summary>
    private readonly record struct Piece(int Line, int Index, Stroke Stroke, double Before)
    {
        public double Left => Math.Min(Stroke.From.X, Stroke.To.X);

        public double Right => Math.Max(Stroke.From.X, Stroke.To.X);

        public double Low => Math.Min(Stroke.From.Y, Stroke.To.Y);

        public double High => Math.Max(Stroke.From.Y, Stroke.To.Y);
    }

    private ImmutableArray<Piece> Strokes()
    {
        List<Piece> strokes = [];
        for (int line = 0; line < _lines.Length; line++)
        {
            double passed = 0;
            for (int i = 1; i < _lines[line].Length; i++)
            {
                Stroke stroke = new(_lines[line][i - 1], _lines[line][i]);
                strokes.Add(new(line, i, stroke, passed));
                passed += stroke.LengthMetres;
            }
        }

        return [.. strokes.OrderBy(stroke => stroke.Left).ThenBy(stroke => stroke.Line).ThenBy(stroke => stroke.Index)];
    }

    private void AddEnds()
    {
        for (int line = 0; line < _lines.Length; line++)
        {
            Add(_lines[line][0], new(line, 0), null);
            Add(_lines[line][^1], new(line, _lengths[line]), null);
        }
    }

    /// <summary>Ends that lie on the way of a line, their own among them where it comes back.</summary>
    private void AddEndsOnLines(ImmutableArray<Piece> strokes)
    {
        StrokeGrid grid = new([.. strokes.Select(stroke => stroke.Stroke)], _snap);
        Dictionary<(int End, int Line), (double Along, double Off, PlanPoint At)> nearest = [];
        for (int end = 0; end < _places.Count; end++)
        {
            foreach (Piece stroke in grid.Near(_places[end].At).Select(i => strokes[i]))
            {
                double share = stroke.Stroke.Nearest(_places[end].At);
                PlanPoint foot = stroke.Stroke.At(share);
                (double along, double off) = (stroke.Before + (share * stroke.Stroke.LengthMetres), Polyline.Distance(foot, _places[end].At));
                if (off > _snap || IsOwnEnd(_places[end].Place, stroke.Line, along)) continue;
                if (!nearest.TryGetValue((end, stroke.Line), out var best) || off < best.Off) nearest[(end, stroke.Line)] = (along, off, foot);
            }
        }

        foreach (((int end, int line), (double along, _, PlanPoint foot)) in nearest.OrderBy(pair => pair.Key))
        {
            // Near one end of the other line the two ends meet; that is found among the ends.
            if (along > _snap && along < _lengths[line] - _snap)
            {
                Add(foot, new(line, along), end);
                Remember((_places[end].Place.Line, line), foot);
                Remember((line, _places[end].Place.Line), foot);
            }
        }
    }

    private void Remember((int, int) lines, PlanPoint at)
    {
        if (!_onto.TryGetValue(lines, out List<PlanPoint>? points)) _onto.Add(lines, points = []);
        points.Add(at);
    }

    private bool IsOwnEnd(LinePlace end, int line, double along) => end.Line == line && Math.Abs(end.Along - along) <= Overshoot * _snap;

    private bool HasTooMany => _places.Count > (2 * _lines.Length) + (2 * LineTracing.MostMeetings);

    private void AddCrossings(ImmutableArray<Piece> strokes)
    {
        for (int i = 0; i < strokes.Length && !HasTooMany; i++)
        {
            Piece one = strokes[i];
            for (int j = i + 1; j < strokes.Length && strokes[j].Left <= one.Right; j++)
            {
                Piece other = strokes[j];
                if (other.Low > one.High || other.High < one.Low || (one.Line == other.Line && Math.Abs(one.Index - other.Index) <= 1)) continue;
                if (one.Stroke.Crossing(other.Stroke) is { } share)
                {
                    PlanPoint at = one.Stroke.At(share);
                    AddCrossing(at, new(one.Line, one.Before + (share * one.Stroke.LengthMetres)), new(other.Line, other.Before + Polyline.Distance(other.Stroke.From, at)));
                }
            }
        }
    }

    private void AddCrossing(PlanPoint at, LinePlace one, LinePlace other)
    {
        bool atEnds = IsAtEnd(one) || IsAtEnd(other);
        bool overshoot = _onto.TryGetValue((one.Line, other.Line), out List<PlanPoint>? met) && met.Any(onto => Polyline.Distance(onto, at) <= Overshoot * _snap);
        if (!atEnds && !overshoot)
        {
            int first = Add(at, one, null);
            Add(at, other, first);
        }
    }

    private bool IsAtEnd(LinePlace place) => place.Along <= _snap || place.Along >= _lengths[place.Line] - _snap;

    private int Add(PlanPoint at, LinePlace place, int? with)
    {
        _places.Add((at, place));
        _group.Add(_places.Count - 1);
        if (with is { } other) Join(other, _places.Count - 1);
        return _places.Count - 1;
    }

    /// <summary>Places nearer to each other than the snapping distance are one node.</summary>
    private ImmutableArray<LineNode> Grouped()
    {
        int[] byX = [.. Enumerable.Range(0, _places.Count).OrderBy(i => _places[i].At.X).ThenBy(i => i)];
        for (int i = 0; i < byX.Length; i++)
        {
            for (int j = i + 1; j < byX.Length && _places[byX[j]].At.X - _places[byX[i]].At.X <= _snap; j++)
            {
                if (Polyline.Distance(_places[byX[i]].At, _places[byX[j]].At) <= _snap) Join(byX[i], byX[j]);
            }
        }

        return [.. Enumerable.Range(0, _places.Count).GroupBy(Root).Select(Node).OrderBy(node => node.At.X).ThenBy(node => node.At.Y)];
    }

    private LineNode Node(IEnumerable<int> members)
    {
        int[] all = [.. members];
        // Where an end lies on the way of a line, the node is on that line; else in the middle of the ends.
        int[] onWay = [.. all.Where(i => !IsEnd(_places[i].Place))];
        int[] middle = onWay.Length > 0 ? onWay : all;
        PlanPoint at = new(middle.Average(i => _places[i].At.X), middle.Average(i => _places[i].At.Y));
        List<LinePlace> places = [];
        foreach (LinePlace place in all.Select(i => _places[i].Place).OrderBy(place => place.Line).ThenBy(place => place.Along))
        {
            // A line that comes by twice has two places; the same place found twice is one.
            if (places.Count == 0 || places[^1].Line != place.Line || place.Along - places[^1].Along > Overshoot * _snap) places.Add(place);
            else if (IsEnd(place)) places[^1] = place;
        }

        return new(at, [.. places]);
    }

    private bool IsEnd(LinePlace place) => place.Along <= 0 || place.Along >= _lengths[place.Line];

    private int Root(int i)
    {
        while (_group[i] != i) i = _group[i] = _group[_group[i]];
        return i;
    }

    private void Join(int one, int other)
    {
        (one, other) = (Root(one), Root(other));
        _group[Math.Max(one, other)] = Math.Min(one, other);
    }
}
