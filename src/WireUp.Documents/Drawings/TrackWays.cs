using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Shortest ways along the track between two places, over every leg of every turnout whether or not a train could drive so: a
/// cable can. Source of the search: E. W. Dijkstra, A note on two problems in connexion with graphs, 1959.
/// </summary>
internal sealed class TrackWays
{
    private readonly PlanGeometry _geometry;
    private readonly LayoutIndex _index;
    private readonly ILookup<TrackEnd, (TrackEnd To, double Metres)> _steps;

    public TrackWays(Layout layout, PlanGeometry geometry)
    {
        (_geometry, _index) = (geometry, new(layout));
        _steps = geometry.Lines
            .Where(line => line.From is not (TableLines.Pivot or TableLines.Head))
            .SelectMany(line =>
            {
                TrackEnd from = new(line.Piece, line.From), to = new(line.Piece, line.To);
                double metres = LengthOf(line);
                return new[] { (from, (to, metres)), (to, (from, metres)) };
            })
            .Concat(geometry.Lines.GroupBy(line => line.Piece).SelectMany(AcrossTable))
            .ToLookup(step => step.Item1, step => step.Item2);
    }

    // A cable goes from any road of a table to any other, under its pit.
    private IEnumerable<(TrackEnd, (TrackEnd, double))> AcrossTable(IGrouping<PieceId, PieceLine> lines)
    {
        TrackEnd[] roads = [.. lines.Where(line => line.From == TableLines.Pivot).Select(line => new TrackEnd(lines.Key, line.To))];
        return from road in roads from other in roads where road != other select (road, (other, _index.Piece(lines.Key).WayMetres));
    }

    /// <summary>The line from one place to the other along the track; empty where there is no way shorter than the limit.</summary>
    public ImmutableArray<PlanPoint> Between(TrackPlace from, TrackPlace to, double limitMetres)
    {
        if (from.Section == to.Section)
        {
            return Math.Abs(from.MetresFromA - to.MetresFromA) <= limitMetres ? Part(from.Section, from.MetresFromA, to.MetresFromA) : [];
        }

        (Dictionary<TrackEnd, TrackEnd> cameFrom, TrackEnd? last) = Search(from, to, limitMetres);
        return last is { } end ? Join(from, to, Trace(cameFrom, end)) : [];
    }

    /// <summary>Looks outward from both ends of the first section until an end of the second is left behind.</summary>
    private (Dictionary<TrackEnd, TrackEnd> CameFrom, TrackEnd? Last) Search(TrackPlace from, TrackPlace to, double limit)
    {
        PriorityQueue<TrackEnd, (double, TrackEnd)> open = new();
        Dictionary<TrackEnd, double> best = [];
        Dictionary<TrackEnd, TrackEnd> cameFrom = [];
        double length = LengthOf(from.Section), targetLength = LengthOf(to.Section);
        if (IsTable(from.Section))
        {
            foreach (TrackEnd road in Roads(from.Section)) Reach(road, length / 2, null);
        }
        else
        {
            Reach(new(from.Section, "a"), from.MetresFromA, null);
            Reach(new(from.Section, "b"), length - from.MetresFromA, null);
        }

        (double Metres, TrackEnd? End) found = (limit, null);
        while (open.TryDequeue(out TrackEnd end, out (double Metres, TrackEnd) cost))
        {
            if (cost.Metres > best[end] || cost.Metres > found.Metres) continue;
            if (_index.Opposite(end) is not { } entry) continue;
            if (entry.Piece == to.Section)
            {
                double total = cost.Metres + (IsTable(to.Section) ? targetLength / 2 : entry.Name == "a" ? to.MetresFromA : targetLength - to.MetresFromA);
                if (total <= found.Metres)
                {
                    found = (total, entry);
                    cameFrom[entry] = end;
                }

                continue;
            }

            foreach ((TrackEnd exit, double metres) in _steps[entry]) Reach(exit, cost.Metres + metres, entry, end);
        }

        return (cameFrom, found.End);

        void Reach(TrackEnd exit, double metres, TrackEnd? entry, TrackEnd? previous = null)
        {
            if (metres >= best.GetValueOrDefault(exit, double.PositiveInfinity) || metres > limit) return;
            best[exit] = metres;
            if (entry is { } through) cameFrom[exit] = through;
            if (entry is { } inner && previous is { } before) cameFrom[inner] = before;
            open.Enqueue(exit, (metres, exit));
        }
    }

    /// <summary>The ends passed, from the first section's to the last one's.</summary>
    private static List<TrackEnd> Trace(Dictionary<TrackEnd, TrackEnd> cameFrom, TrackEnd last)
    {
        List<TrackEnd> ends = [last];
        while (cameFrom.TryGetValue(ends[^1], out TrackEnd before) && ends.Count <= cameFrom.Count + 1) ends.Add(before);
        ends.Reverse();
        return ends;
    }

    private ImmutableArray<PlanPoint> Join(TrackPlace from, TrackPlace to, List<TrackEnd> ends)
    {
        List<PlanPoint> points = [.. ToEnd(from, ends[0])];
        for (int i = 1; i + 1 < ends.Count; i += 2) points.AddRange(Through(ends[i], ends[i + 1]));
        points.AddRange(ToEnd(to, ends[^1]).Reverse());
        return [.. points];
    }

    private ImmutableArray<PlanPoint> ToEnd(TrackPlace place, TrackEnd end) => IsTable(place.Section)
        ? [_geometry.PointAt(place).At, _geometry.EndAt(end).At]
        : Part(place.Section, place.MetresFromA, end.Name == "a" ? 0 : LengthOf(place.Section));

    private bool IsTable(PieceId piece) => _index.Piece(piece) is Piece.Turntable or Piece.TransferTable;

    private IEnumerable<TrackEnd> Roads(PieceId table) =>
        _geometry.LinesOf(table).Where(line => line.From == TableLines.Pivot).Select(line => new TrackEnd(table, line.To));

    private IEnumerable<PlanPoint> Through(TrackEnd entry, TrackEnd exit)
    {
        if (IsTable(entry.Piece))
        {
            return LineTo(entry).Reverse().Concat(LineTo(exit));
        }

        foreach (PieceLine line in _geometry.LinesOf(entry.Piece))
        {
            if (line.From == entry.Name && line.To == exit.Name) return line.Points;
            if (line.From == exit.Name && line.To == entry.Name) return line.Points.Reverse();
        }

        return [];
    }

    private ImmutableArray<PlanPoint> LineTo(TrackEnd road) => _geometry.LinesOf(road.Piece).First(line => line.To == road.Name).Points;

    private ImmutableArray<PlanPoint> Part(PieceId section, double fromMetres, double toMetres)
    {
        PieceLine line = _geometry.LinesOf(section)[0];
        double length = LengthOf(section);
        if (length <= 0) return line.Points;
        (double low, double high) = (Math.Min(fromMetres, toMetres) / length, Math.Max(fromMetres, toMetres) / length);
        ImmutableArray<PlanPoint> part = line.Part(Math.Clamp(low, 0, 1), Math.Clamp(high, 0, 1));
        return fromMetres <= toMetres ? part : [.. part.Reverse()];
    }

    private double LengthOf(PieceId section) => _index.Piece(section).PlacesMetres ?? 0;

    /// <summary>True length of a section; what the paper shows for other pieces, whose length the file need not say.</summary>
    private double LengthOf(PieceLine line) => _index.Piece(line.Piece) switch
    {
        Piece.Section section => section.Length.Meters,
        { WayMetres: > 0 } piece => piece.WayMetres,
        _ => 0.1,
    };
}
