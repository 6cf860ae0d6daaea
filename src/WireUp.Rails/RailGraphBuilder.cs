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

    internal Dictionary<(string Feeder, Leg Leg), int> Wires { get; } = [];

    internal Dictionary<PieceId, System.Collections.Immutable.ImmutableArray<Station>> Stations { get; } = [];

    internal RailGraphBuilder Build()
    {
        ILookup<PieceId, (double Metres, RailSet Gap)> marks = Marks().ToLookup(mark => mark.Section, mark => (mark.Metres, mark.Gap));
        foreach (Piece piece in index.Layout.Track)
        {
            AddEnds(piece);
            if (piece is Piece.Section section)
            {
                AddPlaces(section, EndStation(section, "a", 0), EndStation(section, "b", section.Length.Meters), marks[section.Id]);
            }
            else
            {
                if (piece.PlacesMetres is { } metres)
                {
                    AddPlaces(piece, BridgeStation(piece, "head", 0), BridgeStation(piece, "tail", metres), marks[piece.Id]);
                }

                AddTrackwork(piece);
            }
        }

        foreach (Joint joint in index.Layout.Joints)
        {
            AddJoint(joint);
        }

        foreach (Gap gap in index.Layout.Wiring.Gaps.Where(gap => gap.BridgedWhen is not null))
        {
            AddContactOverGap(gap, gap.BridgedWhen!.Value);
        }

        foreach (Feeder feeder in index.Layout.Wiring.Feeders.Where(feeder => feeder.When is not null))
        {
            AddSwitchedFeeder(feeder, feeder.When!.Value);
        }

        return this;
    }

    /// <summary>A contact that joins the two faces of a gap in one position.</summary>
    private void AddContactOverGap(Gap gap, Setting when)
    {
        foreach (RailSide side in new[] { _sides.First, _sides.Second }.Where(side => gap.Rails.Holds(side)))
        {
            (int near, int far) = gap.At switch
            {
                GapPlace.InSection within => FacesWithin(within.Place, side),
                GapPlace.InJoint joint => (Ends[new(joint.End, side)], index.Opposite(joint.End) is { } opposite ? Ends[new(opposite, side.Across())] : -1),
                _ => throw new InvalidOperationException($"not a place of a gap: {gap.At}"),
            };
            if (far >= 0 && near != far)
            {
                Links.Add(new RailLink.Contact(near, far, when.Owner, when.Position, 0));
            }
        }
    }

    private (int Near, int Far) FacesWithin(TrackPlace place, RailSide side)
    {
        Station station = StationAt(place);
        return side == _sides.First ? (station.FirstTowardsA, station.FirstTowardsB) : (station.SecondTowardsA, station.SecondTowardsB);
    }

    private Station StationAt(TrackPlace place) =>
        Stations[place.Section].First(station => Math.Abs(station.Metres - place.MetresFromA) <= SamePlaceMetres);

    /// <summary>The conductors that a feeder at a place reaches: the rails there, or the halves of a bridge's ring.</summary>
    private (int First, int Second) FedRails(TrackPlace place)
    {
        (string one, string other) = (FeederPoints.RingHalf(_sides.First), FeederPoints.RingHalf(_sides.Second));
        if (Inside.TryGetValue((place.Section, one), out int first) && Inside.TryGetValue((place.Section, other), out int second))
        {
            return (first, second);
        }

        Station station = StationAt(place);
        return (station.FirstTowardsB, station.SecondTowardsB);
    }

    /// <summary>The two wires of a feeder that a contact connects to the rails in one position.</summary>
    private void AddSwitchedFeeder(Feeder feeder, Setting when)
    {
        (int first, int second) = FedRails(feeder.At);
        foreach ((Leg leg, int rail) in new[] { (Leg.A, first), (Leg.B, second) })
        {
            Leg carried = feeder.Swap ? (leg == Leg.A ? Leg.B : Leg.A) : leg;
            int wire = Wires[(feeder.Name, carried)] = Add(new RailPoint.AtWire(feeder.At.Section, feeder.Name, carried));
            Links.Add(new RailLink.Contact(wire, rail, when.Owner, when.Position, 0));
        }
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
        double length = piece.WayMetres;
        foreach (FixedBond bond in trackwork.Fixed)
        {
            Links.Add(new RailLink.Bond(NodeOf(piece, bond.From), NodeOf(piece, bond.To), piece.Id, bond.Share * length) { IsFoil = bond.IsFoil });
        }

        foreach (SwitchedBond bond in trackwork.Switched)
        {
            Links.Add(new RailLink.Contact(
                NodeOf(piece, bond.From), NodeOf(piece, bond.To), piece.Id, bond.Position, bond.Share * length)
            {
                HasWire = bond.Share == 0 && (bond.From.Side is null || bond.To.Side is null),
            });
        }
    }

    private int NodeOf(Piece piece, PieceNode node) => node.Side is { } side ? Ends[new RailEnd(piece.End(node.Name), side)] : NodeInside(piece.Id, node.Name);

    private int NodeInside(PieceId piece, string name)
    {
        if (!Inside.TryGetValue((piece, name), out int inner))
        {
            Inside[(piece, name)] = inner = Add(new RailPoint.Inside(piece, name));
        }

        return inner;
    }

    /// <summary>The rails of a section or bridge between its first and its last station.</summary>
    private void AddPlaces(Piece piece, Station first, Station last, IEnumerable<(double Metres, RailSet Gap)> marks)
    {
        List<Station> stations = [first];
        foreach ((double metres, RailSet gap) in Merge(marks, last.Metres, piece.Id))
        {
            (int firstA, int firstB) = AddWithin(piece.Id, metres, _sides.First, gap);
            (int secondA, int secondB) = AddWithin(piece.Id, metres, _sides.Second, gap);
            stations.Add(new(metres, firstA, firstB, secondA, secondB));
        }

        stations.Add(last);
        for (int i = 1; i < stations.Count; i++)
        {
            (Station from, Station to) = (stations[i - 1], stations[i]);
            Links.Add(new RailLink.Rail(from.FirstTowardsB, to.FirstTowardsA, piece.Id, _sides.First, from.Metres, to.Metres));
            Links.Add(new RailLink.Rail(from.SecondTowardsB, to.SecondTowardsA, piece.Id, _sides.Second, from.Metres, to.Metres));
        }

        Stations[piece.Id] = [.. stations];
    }

    /// <summary>An end of a bridge, whose rails are seen from head to tail as those of a section are from a to b.</summary>
    private Station BridgeStation(Piece piece, string end, double metres)
    {
        bool atHead = end == "head";
        int first = NodeInside(piece.Id, TrackworkRows.Turntables.Bridge(end, atHead ? _sides.First.Across() : _sides.First).Name);
        int second = NodeInside(piece.Id, TrackworkRows.Turntables.Bridge(end, atHead ? _sides.Second.Across() : _sides.Second).Name);
        return new(metres, first, first, second, second);
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
                (int from, int to) = (Ends[new RailEnd(joint.First, side)], Ends[new RailEnd(joint.Second, side.Across())]);
                switch (LiftOutsAt(joint))
                {
                    case []:
                        Links.Add(new RailLink.Through(from, to, joint, side));
                        break;
                    case [var only]:
                        Links.Add(new RailLink.Contact(from, to, only, TrackworkRows.PlainTrack.In, 0));
                        break;
                    case [var one, var other, ..]:
                        int between = NodeInside(other, $"edge {joint.Second.Name}/{RailSides.Word(side)}");
                        Links.Add(new RailLink.Contact(from, between, one, TrackworkRows.PlainTrack.In, 0));
                        Links.Add(new RailLink.Contact(between, to, other, TrackworkRows.PlainTrack.In, 0));
                        break;
                }
            }
        }
    }

    /// <summary>The sections that are lifted out of this joint, the one at its first end first.</summary>
    private List<PieceId> LiftOutsAt(Joint joint) =>
        [.. new[] { joint.First, joint.Second }.Select(end => end.Piece).Where(piece => index.Piece(piece) is Piece.Section { LiftOut: true })];
}
