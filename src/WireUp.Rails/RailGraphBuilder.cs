using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Collects the nodes and links of a <see cref="RailGraph"/>.</summary>
internal sealed class RailGraphBuilder(LayoutIndex index, IEnumerable<TrackPlace> places)
{
    /// <summary>Places closer than this, in metres, are one place.</summary>
    internal const double SamePlaceMetres = 1e-6;

    private readonly (RailSide First, RailSide Second) _sides = RailSides.Of(index.Layout.Control);

    internal LayoutIndex Index => index;

    internal List<RailPoint> Nodes { get; } = [];

    internal List<RailLink> Links { get; } = [];

    internal Dictionary<RailEnd, int> Ends { get; } = [];

    internal Dictionary<(PieceId Piece, string Name), int> Inside { get; } = [];

    internal Dictionary<PieceId, System.Collections.Immutable.ImmutableArray<Station>> Stations { get; } = [];

    internal RailGraphBuilder Build()
    {
        ILookup<PieceId, (double Metres, RailSet Gap)> marks = Marks().ToLookup(mark => mark.Section, mark => (mark.Metres, mark.Gap));
        foreach (Piece piece in index.Layout.Track)
        {
            AddEnds(piece);
            if (piece is Piece.Section section)
            {
                AddSection(section, marks[section.Id]);
            }
            else
            {
                AddTrackwork(piece);
            }
        }

        foreach (Joint joint in index.Layout.Joints)
        {
            AddJoint(joint);
        }

        return this;
    }

    private IEnumerable<(PieceId Section, double Metres, RailSet Gap)> Marks()
    {
        Wiring wiring = index.Layout.Wiring;
        IEnumerable<TrackPlace> feeders = wiring.Feeders.Select(feeder => feeder.At);
        foreach (TrackPlace place in feeders.Concat(places))
        {
            yield return (place.Section, place.MetresFromA, RailSet.None);
        }

        foreach (Gap gap in wiring.Gaps)
        {
            if (gap.At is GapPlace.InSection within)
            {
                yield return (within.Place.Section, within.Place.MetresFromA, gap.Rails);
            }
        }
    }

    private int Add(RailPoint point)
    {
        Nodes.Add(point);
        return Nodes.Count - 1;
    }

    private void AddEnds(Piece piece)
    {
        foreach (TrackEnd end in piece.Ends)
        {
            foreach (RailSide side in new[] { _sides.First, _sides.Second })
            {
                RailEnd rail = new(end, side);
                Ends[rail] = Add(new RailPoint.AtEnd(rail));
            }
        }
    }

    private void AddTrackwork(Piece piece)
    {
        Trackwork trackwork = TrackworkTable.Of(piece, index.Layout.Control);
        double length = piece switch
        {
            Piece.Turnout turnout => turnout.Length?.Meters ?? 0,
            Piece.Crossing crossing => crossing.Length?.Meters ?? 0,
            _ => 0,
        };
        foreach (FixedBond bond in trackwork.Fixed)
        {
            Links.Add(new RailLink.Bond(NodeOf(piece, bond.From), NodeOf(piece, bond.To), piece.Id, bond.Share * length));
        }

        foreach (SwitchedBond bond in trackwork.Switched)
        {
            Links.Add(new RailLink.Contact(
                NodeOf(piece, bond.From), NodeOf(piece, bond.To), piece.Id, bond.Position, bond.Share * length));
        }
    }

    private int NodeOf(Piece piece, PieceNode node)
    {
        if (node.Side is { } side)
        {
            return Ends[new RailEnd(piece.End(node.Name), side)];
        }

        if (!Inside.TryGetValue((piece.Id, node.Name), out int inner))
        {
            Inside[(piece.Id, node.Name)] = inner = Add(new RailPoint.Inside(piece.Id, node.Name));
        }

        return inner;
    }

    private void AddSection(Piece.Section section, IEnumerable<(double Metres, RailSet Gap)> marks)
    {
        double length = section.Length.Meters;
        List<Station> stations = [EndStation(section, "a", 0)];
        foreach ((double metres, RailSet gap) in Merge(marks, length, section.Id))
        {
            (int firstA, int firstB) = AddWithin(section.Id, metres, _sides.First, gap);
            (int secondA, int secondB) = AddWithin(section.Id, metres, _sides.Second, gap);
            stations.Add(new(metres, firstA, firstB, secondA, secondB));
        }

        stations.Add(EndStation(section, "b", length));
        for (int i = 1; i < stations.Count; i++)
        {
            (Station from, Station to) = (stations[i - 1], stations[i]);
            Links.Add(new RailLink.Rail(from.FirstTowardsB, to.FirstTowardsA, section.Id, _sides.First, from.Metres, to.Metres));
            Links.Add(new RailLink.Rail(from.SecondTowardsB, to.SecondTowardsA, section.Id, _sides.Second, from.Metres, to.Metres));
        }

        Stations[section.Id] = [.. stations];
    }

    /// <summary>A section's left rail seen from a to b is the right rail looking out of a and the left rail looking out of b.</summary>
    private Station EndStation(Piece.Section section, string end, double metres)
    {
        bool atA = end == "a";
        int first = Ends[new RailEnd(section.End(end), atA ? _sides.First.Across() : _sides.First)];
        int second = Ends[new RailEnd(section.End(end), atA ? _sides.Second.Across() : _sides.Second)];
        return new(metres, first, first, second, second);
    }

    /// <summary>Sorts the marks and makes those of one place into one; marks at the very ends without a gap are the ends.</summary>
    private static IEnumerable<(double Metres, RailSet Gap)> Merge(
        IEnumerable<(double Metres, RailSet Gap)> marks, double length, PieceId section)
    {
        List<(double Metres, RailSet Gap)> merged = [];
        foreach ((double metres, RailSet gap) in marks.OrderBy(mark => mark.Metres))
        {
            if (!(metres >= -SamePlaceMetres && metres <= length + SamePlaceMetres))
            {
                throw new ArgumentOutOfRangeException(nameof(marks), metres, $"outside section '{section}' [0–{length} m]");
            }

            if (gap == RailSet.None && (metres < SamePlaceMetres || metres > length - SamePlaceMetres))
            {
                continue;
            }

            if (merged.Count > 0 && metres - merged[^1].Metres < SamePlaceMetres)
            {
                merged[^1] = (merged[^1].Metres, merged[^1].Gap | gap);
            }
            else
            {
                merged.Add((metres, gap));
            }
        }

        return merged;
    }

    private (int TowardsA, int TowardsB) AddWithin(PieceId section, double metres, RailSide side, RailSet gap)
    {
        TrackPlace place = new(section, metres);
        if (!gap.Holds(side))
        {
            int node = Add(new RailPoint.Within(place, side, GapFace.None));
            return (node, node);
        }

        return (Add(new RailPoint.Within(place, side, GapFace.TowardsA)), Add(new RailPoint.Within(place, side, GapFace.TowardsB)));
    }

    private void AddJoint(Joint joint)
    {
        RailSet open = index.OpenRails(joint.First);
        foreach (RailSide side in new[] { _sides.First, _sides.Second })
        {
            if (!open.Holds(side))
            {
                Links.Add(new RailLink.Through(
                    Ends[new RailEnd(joint.First, side)], Ends[new RailEnd(joint.Second, side.Across())], joint, side));
            }
        }
    }
}
