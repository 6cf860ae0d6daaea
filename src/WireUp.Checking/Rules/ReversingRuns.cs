using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A drive through a reversing section that needs its polarity swapped on the way.</summary>
/// <param name="From">The gap at which the train comes in.</param>
/// <param name="To">The gap at which it goes out.</param>
/// <param name="LengthMetres">Distance between the two.</param>
internal sealed record ReversingRun(string From, string To, double LengthMetres);

/// <summary>
/// Finds such drives. Borders whose outside is fed by a fixed district ask the section for one phase or the other; between two that
/// ask for different phases the train must fit. A drive with a change of direction inside is left out: for that the whole
/// train has to be inside anyway.
/// </summary>
internal static class ReversingRuns
{
    internal static IEnumerable<ReversingRun> Of(CheckContext context, District district)
    {
        ImmutableArray<SectionBorder> borders = Borders(context, district);
        ImmutableHashSet<PieceId> within = Within(context.Polarity.Parity, district, context);
        for (int i = 0; i < borders.Length; i++)
        {
            for (int j = 0; j < borders.Length; j++)
            {
                if (borders[i].Phase != borders[j].Phase && Distance(context, borders[i], borders[j], within) is { } metres)
                {
                    yield return new(borders[i].Place, borders[j].Place, metres);
                }
            }
        }
    }

    private static ImmutableHashSet<int> ComponentsOf(ParityGraph parity, District district, CheckContext context) =>
        [.. context.Wiring.Feeders.Where(feeder => feeder.District == district.Name).Select(feeder => parity.Components[parity.PartAt(feeder.At)])];

    private static ImmutableHashSet<PieceId> Within(ParityGraph parity, District district, CheckContext context)
    {
        ImmutableHashSet<int> components = ComponentsOf(parity, district, context);
        return
        [
            .. parity.Parts.Select((part, i) => (part, i))
                .GroupBy(pair => pair.part.Piece)
                .Where(piece => context.Index.Piece(piece.Key) is Piece.Section
                    ? piece.All(pair => components.Contains(parity.Components[pair.i]) && piece.Count() == 1)
                    : piece.Any(pair => components.Contains(parity.Components[pair.i])))
                .Select(piece => piece.Key),
        ];
    }

    private static ImmutableArray<SectionBorder> Borders(CheckContext context, District district)
    {
        ParityGraph parity = context.Polarity.Parity;
        ImmutableHashSet<int> inside = ComponentsOf(parity, district, context);
        FrozenPhases phases = FrozenPhases.Of(context);
        ImmutableArray<SectionBorder>.Builder borders = ImmutableArray.CreateBuilder<SectionBorder>();
        foreach (Joint joint in context.Layout.Joints)
        {
            AddAtJoint(joint.First, joint.Second);
            AddAtJoint(joint.Second, joint.First);
        }

        for (int part = 1; part < parity.Parts.Length; part++)
        {
            if (parity.Parts[part].Piece == parity.Parts[part - 1].Piece && parity.Parts[part].Number > 0 && context.Index.Piece(parity.Parts[part].Piece) is Piece.Section)
            {
                AddInSection(part - 1, part, part);
                AddInSection(part, part - 1, part);
            }
        }

        return borders.ToImmutable();

        void AddAtJoint(TrackEnd end, TrackEnd beyond)
        {
            (int part, int outside) = (parity.PartAt(end), parity.PartAt(beyond));
            bool sameKind = parity.Parts[part].PlusEnds.Contains(end) == parity.Parts[outside].PlusEnds.Contains(beyond);
            double at = end.Name == "a" ? 0 : parity.Parts[part].ToMetres;
            Add(end.ToString(), part, outside, sameKind, new(part, end, at));
        }

        void AddInSection(int part, int outside, int later)
        {
            double at = parity.Parts[later].FromMetres;
            Add(new TrackPlace(parity.Parts[part].Piece, at).ToString(), part, outside, flips: false, new(part, null, at));
        }

        void Add(string place, int part, int outside, bool flips, BorderSpot spot)
        {
            bool isBorder = inside.Contains(parity.Components[part]) && !inside.Contains(parity.Components[outside]);
            if (isBorder && phases.Of(parity.Components[outside]) is { } phase)
            {
                borders.Add(new(place, parity.Signs[part] * parity.Signs[outside] * phase * (flips ? -1 : 1), spot));
            }
        }
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
                .Where(feeder => !reversing.Contains(feeder.District))
                .Select(feeder => (Part: parity.PartAt(feeder.At), feeder.Swap))
                .GroupBy(feeder => parity.Components[feeder.Part])
                .ToImmutableDictionary(
                    component => component.Key,
                    component => parity.Signs[component.First().Part] * (component.First().Swap ? -1 : 1)));
        }

        internal int? Of(int component) => Signs.TryGetValue(component, out int sign) ? sign : null;
    }
}
