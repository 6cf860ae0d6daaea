using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Makes the <see cref="SessionTrack"/> of a layout. Track that nothing feeds, or only for programming, is left out: before it the line
/// ends. Movable track is in; a turntable is driven straight across, not turned with a train on it.
/// </summary>
internal sealed class SessionTrackBuilder
{
    private readonly LayoutIndex _index;
    private readonly FeedMap _feeds;
    private readonly double _cellMetres;
    private readonly List<(double Metres, int District)> _elements = [];
    private readonly Dictionary<TrackEnd, int> _sideAt = [];
    private readonly Dictionary<int, TrackEnd> _endOf = [];
    private readonly Dictionary<int, int> _beside = [];
    private readonly Dictionary<PieceId, int> _junctionOf = [];
    private readonly List<TrackLeg> _legs = [];
    private readonly List<TrackStretch> _stretches = [];
    private readonly Dictionary<TrackEnd, List<int>> _entering = [];
    private readonly Dictionary<int, TrackEnd> _leaving = [];
    private int _cells, _junctions;

    private SessionTrackBuilder(RailGraph graph, FeedMap feeds, double cellMetres) =>
        (_index, _feeds, _cellMetres) = (graph.Index, feeds, cellMetres);

    internal static SessionTrack Build(RailGraph graph, FeedMap feeds, double cellMetres)
    {
        SessionTrackBuilder builder = new(graph, feeds, cellMetres);
        builder.AddElements();
        builder.AddTrackwork(graph.Layout.Control);
        builder.AddLines();
        return builder.Joined();
    }

    private bool IsForTrains(int district) => district != FeedMap.None && _feeds.Districts[district].Use == DistrictUse.Running;

    /// <summary>Every fed length of every section; side 2·e of element e looks to the section's a, side 2·e + 1 to its b.</summary>
    private void AddElements()
    {
        foreach (Piece.Section section in _index.Layout.Track.OfType<Piece.Section>())
        {
            int before = -1;
            foreach ((double from, double to, int district) in _feeds.Along(section.Id))
            {
                if (!IsForTrains(district))
                {
                    before = -1;
                    continue;
                }

                int element = _elements.Count;
                _elements.Add((to - from, district));
                if (from == 0)
                {
                    Put(section.End("a"), 2 * element);
                }
                else if (before >= 0)
                {
                    (_beside[(2 * before) + 1], _beside[2 * element]) = (2 * element, (2 * before) + 1);
                }

                if (to == section.Length.Meters)
                {
                    Put(section.End("b"), (2 * element) + 1);
                }

                before = element;
            }
        }

        foreach (Joint joint in _index.Layout.Joints)
        {
            if (_sideAt.TryGetValue(joint.First, out int first) && _sideAt.TryGetValue(joint.Second, out int second))
            {
                (_beside[first], _beside[second]) = (second, first);
            }
        }
    }

    private void Put(TrackEnd end, int side) => (_sideAt[end], _endOf[side]) = (side, end);

    /// <summary>Every way through trackwork, once for all positions in which it is open; all ways of a piece share its one cell.</summary>
    private void AddTrackwork(ControlSystem control)
    {
        foreach (Piece piece in _index.Layout.Track.Where(piece => piece is not Piece.Section and not Piece.Stop))
        {
            Trackwork row = TrackworkTable.Of(piece, control);
            int cell = _cells++, junction = _junctions++;
            _junctionOf[piece.Id] = junction;
            foreach (DrivableWay way in row.Ways.Where(way => !row.Useless.Contains(way.Position!)).DistinctBy(way => (way.From, way.To)))
            {
                int district = _feeds.Through(piece, way);
                if (IsForTrains(district))
                {
                    int leg = AddLegs(cell, piece.WayMetres, district);
                    AddStretch([leg], true, (junction, junction), (piece.End(way.From), piece.End(way.To)));
                }
            }
        }
    }

    /// <summary>Lines begin where an element has none beside it; what is left after that are rings, cut at their first element.</summary>
    private void AddLines()
    {
        bool[] done = new bool[_elements.Count];
        for (int side = 0; side < 2 * done.Length; side++)
        {
            if (!done[side / 2] && !_beside.ContainsKey(side))
            {
                AddLine(side, done);
            }
        }

        for (int element = 0; element < done.Length; element++)
        {
            if (!done[element])
            {
                AddLine(2 * element, done);
                int line = _stretches.Count - 2;
                (_stretches[line], _stretches[line + 1]) = (Ring(line), Ring(line + 1));
            }
        }
    }

    private TrackStretch Ring(int line) => _stretches[line] with { Next = [line], To = _stretches[line & ~1].From, From = _stretches[line & ~1].From };

    private void AddLine(int start, bool[] done)
    {
        List<int> legs = [];
        int side = start;
        while (!done[side / 2])
        {
            done[side / 2] = true;
            legs.AddRange(AddCells(_elements[side / 2], backwards: side % 2 == 1));
            side ^= 1;
            if (_beside.TryGetValue(side, out int next) && !done[next / 2])
            {
                side = next;
            }
        }

        AddStretch([.. legs], false, (JunctionAt(start), JunctionAt(side)), (EndAt(start), EndAt(side)));
    }

    private TrackEnd? EndAt(int side) => _endOf.TryGetValue(side, out TrackEnd end) ? end : null;

    private int JunctionAt(int side) =>
        EndAt(side) is { } end && _index.Opposite(end) is { } opposite && _junctionOf.TryGetValue(opposite.Piece, out int junction)
            ? junction
            : _junctions++;

    private IEnumerable<int> AddCells((double Metres, int District) element, bool backwards)
    {
        int count = Math.Max(1, (int)Math.Ceiling(element.Metres / _cellMetres));
        for (int i = 0; i < count; i++)
        {
            int leg = AddLegs(_cells++, element.Metres / count, element.District);
            yield return backwards ? leg ^ 1 : leg;
        }
    }

    private int AddLegs(int cell, double metres, int district)
    {
        TrackLeg leg = new(cell, metres, district, 0, 0);
        _legs.Add(leg);
        _legs.Add(leg);
        return _legs.Count - 2;
    }

    private void AddStretch(ImmutableArray<int> legs, bool isTrackwork, (int From, int To) junctions, (TrackEnd? From, TrackEnd? To) ends)
    {
        int forward = _stretches.Count;
        double metres = legs.Sum(leg => _legs[leg].Metres);
        ImmutableArray<int> back = [.. legs.Reverse().Select(leg => leg ^ 1)];
        _stretches.Add(new(legs, metres, isTrackwork, junctions.From, junctions.To, []));
        _stretches.Add(new(back, metres, isTrackwork, junctions.To, junctions.From, []));
        for (int i = 0; i < legs.Length; i++)
        {
            _legs[legs[i]] = _legs[legs[i]] with { Stretch = forward, Index = i };
            _legs[back[i]] = _legs[back[i]] with { Stretch = forward + 1, Index = i };
        }

        Note(forward, ends.From, ends.To);
        Note(forward + 1, ends.To, ends.From);
    }

    private void Note(int stretch, TrackEnd? entersAt, TrackEnd? leavesAt)
    {
        if (entersAt is { } enter)
        {
            if (!_entering.TryGetValue(enter, out List<int>? stretches))
            {
                _entering[enter] = stretches = [];
            }

            stretches.Add(stretch);
        }

        if (leavesAt is { } leave)
        {
            _leaving[stretch] = leave;
        }
    }

    private SessionTrack Joined()
    {
        for (int s = 0; s < _stretches.Count; s++)
        {
            if (_stretches[s].Next.IsEmpty && _leaving.TryGetValue(s, out TrackEnd end) && _index.Opposite(end) is { } opposite
                && _entering.TryGetValue(opposite, out List<int>? next))
            {
                _stretches[s] = _stretches[s] with { Next = [.. next] };
            }
        }

        return new([.. _legs], [.. _stretches], _cells, _junctions);
    }
}
