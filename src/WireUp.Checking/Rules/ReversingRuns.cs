using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A drive through a reversing section that needs its polarity swapped on the way.</summary>
/// <param name="From">The gap at which the train comes in.</param>
/// <param name="To">The gap at which it goes out.</param>
/// <param name="LengthMetres">Distance between the two.</param>
internal sealed record ReversingRun(string From, string To, double LengthMetres);

/// <summary>Track of fixed polarity between two reversing districts.</summary>
/// <param name="One">One district.</param>
/// <param name="Other">The other.</param>
/// <param name="From">The gap towards the one.</param>
/// <param name="To">The gap towards the other.</param>
/// <param name="LengthMetres">Distance between the two gaps, as a train drives.</param>
internal sealed record ReversingBuffer(string One, string Other, string From, string To, double LengthMetres);

/// <summary>
/// Finds such drives. Borders whose outside is fed by a fixed district ask the section for one phase or the other; between two that
/// ask for different phases the train must fit. A drive with a change of direction inside is left out: for that the whole
/// train has to be inside anyway.
/// </summary>
internal sealed class ReversingRuns
{
    private readonly CheckContext _context;
    private readonly ParityGraph _parity;
    private readonly FrozenPhases _phases;
    private readonly ILookup<string, int> _componentsFed;
    private readonly ILookup<PieceId, int> _componentsThrown;
    private readonly ILookup<int, Meeting> _meetings;
    private readonly ILookup<int, PieceId> _pieces;
    private readonly ILookup<PieceId, int> _componentsOf;

    internal ReversingRuns(CheckContext context)
    {
        (_context, _parity, _phases) = (context, context.Polarity.Parity, FrozenPhases.Of(context));
        _componentsFed = context.Wiring.Feeders.ToLookup(feeder => feeder.District, feeder => _parity.Components[_parity.PartAt(feeder.At)]);
        _componentsThrown = ReversingSwitches.Throws(context.Wiring)
            .ToLookup(feeder => feeder.When!.Value.Owner, feeder => _parity.Components[_parity.PartAt(feeder.At)]);
        _meetings = Meetings().Select((meeting, i) => meeting with { Order = i }).ToLookup(meeting => _parity.Components[meeting.Spot.Part]);
        _pieces = _parity.Parts.Select((part, i) => (part.Piece, Component: _parity.Components[i])).ToLookup(pair => pair.Component, pair => pair.Piece);
        _componentsOf = _parity.Parts.Select((part, i) => (part.Piece, Component: _parity.Components[i])).ToLookup(pair => pair.Piece, pair => pair.Component);
    }

    /// <summary>The drives through the sections of one reversing district, by the gap at which the train comes in.</summary>
    internal IEnumerable<ReversingRun> Of(District district) => Of([.. _componentsFed[district.Name]]);

    /// <summary>The hand reversing switches, in the order of the layout.</summary>
    internal IEnumerable<PieceId> Switches => _componentsThrown.Select(group => group.Key);

    /// <summary>The drives through the track that a hand reversing switch feeds.</summary>
    internal IEnumerable<ReversingRun> Of(PieceId reversingSwitch) => Of([.. _componentsThrown[reversingSwitch]]);

    private IEnumerable<ReversingRun> Of(ImmutableSortedSet<int> components)
    {
        ImmutableArray<SectionBorder> borders = Borders(components);
        ImmutableHashSet<PieceId> within = Within(components);
        for (int i = 0; i < borders.Length; i++)
        {
            for (int j = 0; j < borders.Length; j++)
            {
                if (borders[i].Phase != borders[j].Phase && Distance(_context, borders[i], borders[j], within) is { } metres)
                {
                    yield return new(borders[i].Place, borders[j].Place, metres);
                }
            }
        }
    }

    /// <summary>The shortest track that a train drives from a section of one reversing district to one of another, for every two that have such.</summary>
    internal IEnumerable<ReversingBuffer> Buffers()
    {
        ImmutableSortedDictionary<int, string> districts = _context.Wiring.Districts.Where(district => district.Reversing)
            .SelectMany(district => _componentsFed[district.Name].Distinct().Select(component => (component, district.Name)))
            .GroupBy(pair => pair.component, pair => pair.Name)
            .ToImmutableSortedDictionary(group => group.Key, group => group.First());
        return
        [
            .. from component in _meetings.Select(meetings => meetings.Key).Order()
               where !districts.ContainsKey(component)
               from buffer in BuffersOver(component, districts)
               group buffer by (buffer.One, buffer.Other) into pair
               select pair.MinBy(buffer => buffer.LengthMetres),
        ];
    }

    private IEnumerable<ReversingBuffer> BuffersOver(int component, ImmutableSortedDictionary<int, string> districts)
    {
        Meeting[] borders = [.. _meetings[component].Where(meeting => districts.ContainsKey(_parity.Components[meeting.Outside]))];
        ImmutableHashSet<PieceId> pieces = Within([component]);
        foreach (Meeting one in borders)
        {
            foreach (Meeting other in borders)
            {
                (string from, string to) = (districts[_parity.Components[one.Outside]], districts[_parity.Components[other.Outside]]);
                if (string.CompareOrdinal(from, to) < 0
                    && Distance(_context, new(one.Place, 0, one.Spot), new(other.Place, 0, other.Spot), pieces) is { } metres)
                {
                    yield return new(from, to, one.Place, other.Place, metres);
                }
            }
        }
    }

    /// <summary>Whole sections, and the trackwork of which some part belongs to the district.</summary>
    private ImmutableHashSet<PieceId> Within(ImmutableSortedSet<int> components) =>
    [
        .. from piece in components.SelectMany(component => _pieces[component]).Distinct()
           where _context.Index.Piece(piece) is not Piece.Section || _componentsOf[piece].Count() == 1
           select piece,
    ];

    private ImmutableArray<SectionBorder> Borders(ImmutableSortedSet<int> inside) =>
    [
        .. from component in inside
           from meeting in _meetings[component]
           where !inside.Contains(_parity.Components[meeting.Outside])
           let phase = _phases.Of(_parity.Components[meeting.Outside])
           where phase is not null
           orderby meeting.Order
           select new SectionBorder(
               meeting.Place,
               _parity.Signs[meeting.Spot.Part] * _parity.Signs[meeting.Outside] * (meeting.Flips ? -phase.Value : phase.Value),
               meeting.Spot),
    ];

    /// <summary>Every place where two components of the track meet, from either side: the joints, then the cuts within sections.</summary>
    private IEnumerable<Meeting> Meetings()
    {
        foreach (Joint joint in _context.Layout.Joints)
        {
            if (_parity.Components[_parity.PartAt(joint.First)] != _parity.Components[_parity.PartAt(joint.Second)])
            {
                yield return AtJoint(joint.First, joint.Second);
                yield return AtJoint(joint.Second, joint.First);
            }
        }

        for (int part = 1; part < _parity.Parts.Length; part++)
        {
            TrackPart later = _parity.Parts[part];
            if (later.Piece == _parity.Parts[part - 1].Piece && later.Number > 0 && _context.Index.Piece(later.Piece) is Piece.Section)
            {
                string place = new TrackPlace(later.Piece, later.FromMetres).ToString();
                yield return new(place, part, Flips: false, new(part - 1, null, later.FromMetres));
                yield return new(place, part - 1, Flips: false, new(part, null, later.FromMetres));
            }
        }
    }

    private Meeting AtJoint(TrackEnd end, TrackEnd beyond)
    {
        (int part, int outside) = (_parity.PartAt(end), _parity.PartAt(beyond));
        bool sameKind = _parity.Parts[part].PlusEnds.Contains(end) == _parity.Parts[outside].PlusEnds.Contains(beyond);
        double at = end.Name == "a" ? 0 : _parity.Parts[part].ToMetres;
        return new(end.ToString(), outside, sameKind, new(part, end, at));
    }

    private static double? Distance(CheckContext context, SectionBorder from, SectionBorder to, ImmutableHashSet<PieceId> within)
    {
        if (from.Spot.Part == to.Spot.Part && context.Index.Piece(context.Polarity.Parity.Parts[from.Spot.Part].Piece) is Piece.Section)
        {
            return Math.Abs(from.Spot.Metres - to.Spot.Metres);
        }

        if (Way(context, from.Spot) is not { } inward || Way(context, to.Spot) is not { } outward)
        {
            return null;
        }

        if (inward.Last is { } last && last == outward.Joined)
        {
            return inward.Metres + outward.Metres;
        }

        DrivePath? drive = context.Track.ShortestDrive(inward.Joined, outward.Joined, new() { Within = within });
        return drive is null ? null : drive.LengthMetres + inward.Metres + outward.Metres;
    }

    /// <summary>
    /// From a border to the first end of a whole piece inside: at a joint that is the piece's own end; within a section the train first
    /// rolls to the section's end and into what is joined there.
    /// </summary>
    private static (TrackEnd Joined, TrackEnd? Last, double Metres)? Way(CheckContext context, BorderSpot spot)
    {
        if (spot.End is { } own)
        {
            return (own, null, 0);
        }

        TrackPart part = context.Polarity.Parity.Parts[spot.Part];
        TrackEnd? end = part.PlusEnds.Concat(part.MinusEnds).Select(each => (TrackEnd?)each).FirstOrDefault();
        return end is { } last && context.Index.Opposite(last) is { } joined
            ? (joined, last, Math.Abs(spot.Metres - (last.Name == "a" ? 0 : part.ToMetres)))
            : null;
    }

    /// <summary>A place where two components meet, seen from one of them.</summary>
    private sealed record Meeting(string Place, int Outside, bool Flips, BorderSpot Spot)
    {
        internal int Order { get; init; }
    }

    /// <summary>A border of the section and the phase, +1 or −1, for which the rails on its two sides agree.</summary>
    private sealed record SectionBorder(string Place, int Phase, BorderSpot Spot);

    /// <summary>Where a border is: at an end of its part, or within a section.</summary>
    private readonly record struct BorderSpot(int Part, TrackEnd? End, double Metres);

    /// <summary>For each component of track that a fixed district feeds, the sign that its feeders ask for.</summary>
    private sealed record FrozenPhases(ImmutableDictionary<int, int> Signs)
    {
        internal static FrozenPhases Of(CheckContext context)
        {
            ParityGraph parity = context.Polarity.Parity;
            HashSet<string> reversing = [.. context.Wiring.Districts.Where(district => district.Reversing).Select(district => district.Name)];
            return new(context.Wiring.Feeders
                .Where(feeder => !reversing.Contains(feeder.District) && !ReversingSwitches.IsThrow(context.Wiring, feeder))
                .Select(feeder => (Part: parity.PartAt(feeder.At), feeder.Swap))
                .GroupBy(feeder => parity.Components[feeder.Part])
                .ToImmutableDictionary(
                    component => component.Key,
                    component => component.First() is { Swap: true } exchanged ? -parity.Signs[exchanged.Part] : parity.Signs[component.First().Part]));
        }

        internal int? Of(int component) => Signs.TryGetValue(component, out int sign) ? sign : null;
    }
}
