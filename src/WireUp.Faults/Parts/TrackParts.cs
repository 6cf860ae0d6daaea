using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Parts;

/// <summary>What can fail in the track: joints, blades, contacts, gaps; rails that touch.</summary>
internal sealed class TrackParts(RailGraph graph)
{
    private readonly (RailSide First, RailSide Second) _sides = RailSides.Of(graph.Layout.Control);

    internal IEnumerable<Part> All() => [.. Links(), .. Contacts(), .. JointGaps(), .. Cuts(), .. Sections(), .. Turnouts()];

    private IEnumerable<Part> Links()
    {
        for (int link = 0; link < graph.Links.Length; link++)
        {
            switch (graph.Links[link])
            {
                case RailLink.Through through:
                    yield return new(OfJoint(through), new Spot.OfLink(link), IsPoor: TrustedJoiners.Spent(graph, through.Joint) > TrustedJoiners.Most);
                    break;
                case RailLink.Contact contact:
                    yield return new(OfContact(contact), new Spot.OfLink(link));
                    break;
            }
        }
    }

    private static FaultElement OfJoint(RailLink.Through through)
    {
        Joint joint = through.Joint;
        return new(
            joint.Kind == JointKind.Soldered ? FaultElementKind.SolderedJoint : FaultElementKind.Joiner,
            $"joint {joint.First}–{joint.Second}, {RailSides.Word(through.Side)} rail",
            Reach.Above)
        { End = joint.First, Piece = joint.First.Piece };
    }

    private FaultElement OfContact(RailLink.Contact contact)
    {
        bool isOwn = graph.Nodes[contact.From].Piece == contact.Piece && graph.Nodes[contact.To].Piece == contact.Piece;
        bool isTrackwork = graph.Index.FindPiece(contact.Piece) is not null && isOwn;
        (FaultElementKind kind, string what) = (isTrackwork, contact.HasWire) switch
        {
            (true, true) => (FaultElementKind.FrogContact, "frog contact"),
            (true, false) => (FaultElementKind.Blade, "blade"),
            _ => (FaultElementKind.SwitchContact, "contact"),
        };
        return new(kind, $"{what} {contact.Piece}.{contact.Position}, {graph.Nodes[contact.From]} to {graph.Nodes[contact.To]}",
            kind == FaultElementKind.Blade ? Reach.Above : Reach.Below)
        { Piece = graph.Nodes[contact.To].Piece };
    }

    /// <summary>A frog contact that is connected the wrong way round closes to the rail of another position.</summary>
    private IEnumerable<Part> Contacts()
    {
        IEnumerable<(int Link, RailLink.Contact Contact)> wired = graph.Links
            .Select((link, i) => (i, Contact: link as RailLink.Contact))
            .Where(entry => entry.Contact is { HasWire: true })
            .Select(entry => (entry.i, entry.Contact!));
        foreach (IGrouping<int, (int Link, RailLink.Contact Contact)> group in wired.GroupBy(entry => entry.Contact.From))
        {
            System.Collections.Immutable.ImmutableArray<(int, int)> ways = [.. group.Select(entry => (entry.Link, entry.Contact.To))];
            PieceId piece = group.First().Contact.Piece;
            if (ways.Length == 2)
            {
                FaultElement element = new(FaultElementKind.FrogContact, $"frog contact of {graph.Nodes[group.Key]}, both ways", Reach.Below) { Piece = piece };
                yield return new(element, new Spot.OfContact(group.Key, ways));
            }
        }
    }

    private IEnumerable<Part> JointGaps()
    {
        foreach (Joint joint in graph.Layout.Joints)
        {
            RailSet open = graph.Index.OpenRails(joint.First);
            foreach (RailSide side in new[] { _sides.First, _sides.Second }.Where(side => open.Holds(side)))
            {
                bool isInsulated = joint.Insulated.Holds(side);
                FaultElement element = new(
                    isInsulated ? FaultElementKind.InsulatedJoint : FaultElementKind.Gap,
                    $"{(isInsulated ? "insulated joint" : "gap at")} {joint.First}–{joint.Second}, {RailSides.Word(side)} rail",
                    Reach.Above)
                { End = joint.First, Piece = joint.First.Piece };
                yield return new(element, new Spot.Between(graph.NodeAt(new(joint.First, side)), graph.NodeAt(new(joint.Second, side.Across()))));
            }
        }
    }

    private IEnumerable<Part> Cuts()
    {
        foreach (Piece piece in graph.Layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            foreach (Station station in graph.Stations(piece.Id))
            {
                TrackPlace place = new(piece.Id, station.Metres);
                foreach ((int near, int far, RailSide side) in new[]
                {
                    (station.FirstTowardsA, station.FirstTowardsB, _sides.First), (station.SecondTowardsA, station.SecondTowardsB, _sides.Second),
                })
                {
                    if (near != far)
                    {
                        FaultElement element = new(FaultElementKind.Gap, $"gap {place}, {RailSides.Word(side)} rail", Reach.Above) { Track = place, Piece = piece.Id };
                        yield return new(element, new Spot.Between(near, far));
                    }
                }
            }
        }
    }

    /// <summary>Something across the rails: taken at the station nearest the middle.</summary>
    private IEnumerable<Part> Sections()
    {
        foreach (Piece piece in graph.Layout.Track)
        {
            if (piece.PlacesMetres is { } metres)
            {
                Station middle = graph.Stations(piece.Id).MinBy(station => Math.Abs(station.Metres - (metres / 2)));
                FaultElement element = new(FaultElementKind.Section, $"rails of {piece.Id}", Reach.Above)
                {
                    Track = new(piece.Id, middle.Metres),
                    Piece = piece.Id,
                };
                yield return new(element, new Spot.Between(middle.FirstTowardsB, middle.SecondTowardsB));
            }
        }
    }

    private IEnumerable<Part> Turnouts()
    {
        foreach (Piece piece in graph.Layout.Track.Where(piece => piece.PlacesMetres is null && piece is not Piece.Stop))
        {
            TrackEnd end = piece.Ends.First();
            FaultElement element = new(FaultElementKind.Turnout, $"rails of {piece.Id} at {end}", Reach.Above) { End = end, Piece = piece.Id };
            yield return new(element, new Spot.Between(graph.NodeAt(new(end, _sides.First)), graph.NodeAt(new(end, _sides.Second))));
            foreach (Part frog in Frogs(piece))
            {
                yield return frog;
            }
        }
    }

    /// <summary>Metal between a frog and either stock rail: a gap that closed, foil that is not cut.</summary>
    private IEnumerable<Part> Frogs(Piece piece)
    {
        if (piece is not Piece.Turnout || graph.NodeInside(piece.Id, TrackworkTable.Frog) is not { } frog)
        {
            yield break;
        }

        TrackEnd points = piece.End("points");
        foreach (RailSide side in new[] { _sides.First, _sides.Second })
        {
            FaultElement element = new(FaultElementKind.Turnout, $"frog of {piece.Id} to its {RailSides.Word(side.Across())} stock rail", Reach.Above) { End = points, Piece = piece.Id };
            yield return new(element, new Spot.Between(frog, graph.NodeAt(new(points, side))));
        }
    }
}
