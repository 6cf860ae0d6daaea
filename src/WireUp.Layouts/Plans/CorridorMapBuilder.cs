using System.Collections.Immutable;

namespace WireUp.Layouts.Plans;

/// <summary>Cuts corridors where they meet and where marks have their feet.</summary>
internal sealed class CorridorMapBuilder
{
    private const double SameMetres = 1e-6;

    private readonly Areas _outOfReach;
    private readonly List<Length> _lengths = [];
    private readonly List<PlanPoint> _points = [];
    private readonly List<CorridorPiece> _touches = [];

    /// <summary>Takes in the corridors, cut where they meet.</summary>
    public CorridorMapBuilder(Benchwork benchwork)
    {
        _outOfReach = new(benchwork.OutOfReach);
        foreach (BusCorridor corridor in benchwork.Corridors)
        {
            Add(corridor);
        }

        for (int one = 0; one < _lengths.Count; one++)
        {
            for (int other = one + 1; other < _lengths.Count; other++)
            {
                if (!_lengths[one].Follows(_lengths[other]))
                {
                    Meet(_lengths[one], _lengths[other]);
                }
            }
        }
    }

    /// <summary>The map, with the feet of some marks.</summary>
    public CorridorMap Build(ImmutableArray<PlanPoint> marks)
    {
        ImmutableArray<int?> feet = [.. marks.Select(Foot)];
        IEnumerable<CorridorPiece> pieces = _lengths.SelectMany(length => length.Pieces());
        return new([.. _points], [.. pieces, .. _touches], feet);
    }

    private void Add(BusCorridor corridor)
    {
        PlanPoint[] path = [.. corridor.Path.Where((point, i) => i == 0 || point != corridor.Path[i - 1])];
        bool closes = corridor.Closed && path.Length > 2;
        int first = _points.Count;
        _points.AddRange(closes && path[^1] == path[0] ? path[..^1] : path);
        for (int point = first + 1; point < _points.Count; point++)
        {
            _lengths.Add(new(corridor.Name, point - 1, point, new(_points[point - 1], _points[point])));
        }

        if (closes)
        {
            _lengths.Add(new(corridor.Name, _points.Count - 1, first, new(_points[^1], _points[first])));
        }
    }

    private void Meet(Length one, Length other)
    {
        if (one.Line.Crossing(other.Line) is { } share)
        {
            PlanPoint crossing = one.Line.At(share);
            Join(one, share, other, other.Line.Nearest(crossing));
            return;
        }

        foreach ((Length end, double at, Length line) in new[] { (one, 0.0, other), (one, 1.0, other), (other, 0.0, one), (other, 1.0, one) })
        {
            PlanPoint corner = end.Line.At(at);
            double nearest = line.Line.Nearest(corner);
            if (Polyline.Distance(corner, line.Line.At(nearest)) <= CorridorMap.TouchMetres)
            {
                Join(end, at, line, nearest);
            }
        }
    }

    private void Join(Length one, double share, Length other, double otherShare)
    {
        if (_outOfReach.At(one.Line.At(share)) is null)
        {
            (int from, int to) = (Point(one, share), Point(other, otherShare));
            if (from != to)
            {
                _touches.Add(new(from, to, Polyline.Distance(_points[from], _points[to]), ""));
            }
        }
    }

    /// <summary>The point of the map at a share of a length, new where none is there.</summary>
    private int Point(Length length, double share)
    {
        int known = length.Near(share, SameMetres);
        if (known >= 0)
        {
            return known;
        }

        _points.Add(length.Line.At(share));
        length.Cuts[share] = _points.Count - 1;
        return _points.Count - 1;
    }

    private int? Foot(PlanPoint mark)
    {
        IEnumerable<(Length Length, double Share)> near =
            from length in _lengths
            from part in length.Within(_outOfReach)
            select (length, length.Line.Nearest(mark, part.From, part.To));
        (Length Length, double Share)[] best = [.. near.OrderBy(each => Math.Round(Polyline.Distance(mark, each.Length.Line.At(each.Share)), 9)).Take(1)];
        return best is [var foot] ? Point(foot.Length, foot.Share) : null;
    }

    /// <summary>A straight length of a corridor between two of its corners.</summary>
    private sealed class Length(string corridor, int from, int to, Stroke line)
    {
        private ImmutableArray<(double From, double To)>? _within;

        public Stroke Line => line;

        /// <summary>Points between its ends, by their shares of the way.</summary>
        public SortedList<double, int> Cuts { get; } = [];

        public bool Follows(Length other) => from == other.To || to == other.From || from == other.From || to == other.To;

        private int From => from;

        private int To => to;

        public int Near(double share, double metres)
        {
            double within = metres / line.LengthMetres;
            if (share <= within || share >= 1 - within)
            {
                return share <= within ? from : to;
            }

            foreach ((double at, int point) in Cuts)
            {
                if (Math.Abs(at - share) <= within)
                {
                    return point;
                }
            }

            return -1;
        }

        public IEnumerable<CorridorPiece> Pieces()
        {
            (int point, double share) = (from, 0);
            foreach ((double at, int next) in Cuts.Append(new(1, to)))
            {
                yield return new(point, next, (at - share) * line.LengthMetres, corridor);
                (point, share) = (next, at);
            }
        }

        /// <summary>The parts that a hand reaches, as shares of the way.</summary>
        public ImmutableArray<(double From, double To)> Within(Areas outOfReach) => _within ??=
            [.. outOfReach.Outside([line.From, line.To]).Select(part => (part.FromMetres / line.LengthMetres, part.ToMetres / line.LengthMetres))];
    }
}
