using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Looks at both faces of every gap, and at both rails of every length of track, for legs that do not belong beside each other.</summary>
internal sealed class GapFinder(RailGraph graph, RailNets nets, SupplyRelations relations)
{
    /// <summary>Gaps whose two faces are fed so that a wheel on them makes a short, in the order of the layout.</summary>
    internal ImmutableArray<GapMeeting> AcrossGaps() =>
    [
        .. from faces in Faces().Distinct()
           let pair = BridgedShort(faces.Near, faces.Far)
           where pair is not null
           select new GapMeeting(graph.Nodes[faces.Near], graph.Nodes[faces.Far], pair.Value.Kind, pair.Value.From, pair.Value.To),
    ];

    /// <summary>Lengths of track whose two rails carry the same leg always, in the order of the layout.</summary>
    internal ImmutableArray<OneSidedTrack> OneSided()
    {
        ImmutableArray<OneSidedTrack>.Builder found = ImmutableArray.CreateBuilder<OneSidedTrack>();
        foreach (Piece.Section section in graph.Layout.Track.OfType<Piece.Section>())
        {
            ImmutableArray<Station> stations = graph.Stations(section.Id);
            foreach ((Station from, Station to) in stations.Zip(stations.Skip(1)))
            {
                if (SameLeg(from.FirstTowardsB, from.SecondTowardsB) is { } leg)
                {
                    Add(found, new(section.Id, from.Metres, to.Metres, leg));
                }
            }
        }

        return found.ToImmutable();
    }

    private static void Add(ImmutableArray<OneSidedTrack>.Builder found, OneSidedTrack next)
    {
        if (found.Count > 0 && found[^1].Section == next.Section && found[^1].ToMetres == next.FromMetres && found[^1].Leg.Leg == next.Leg.Leg)
        {
            found[^1] = found[^1] with { ToMetres = next.ToMetres };
        }
        else
        {
            found.Add(next);
        }
    }

    private IEnumerable<(int Near, int Far)> Faces()
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        foreach (Joint joint in graph.Layout.Joints)
        {
            RailSet open = graph.Index.OpenRails(joint.First);
            foreach (RailSide side in new[] { first, second }.Where(side => open.Holds(side)))
            {
                yield return (graph.NodeAt(new(joint.First, side)), graph.NodeAt(new(joint.Second, side.Across())));
            }
        }

        foreach (Station station in graph.Layout.Track.OfType<Piece.Section>().SelectMany(section => graph.Stations(section.Id)))
        {
            if (station.FirstTowardsA != station.FirstTowardsB)
            {
                yield return (station.FirstTowardsA, station.FirstTowardsB);
            }

            if (station.SecondTowardsA != station.SecondTowardsB)
            {
                yield return (station.SecondTowardsA, station.SecondTowardsB);
            }
        }
    }

    /// <summary>
    /// A fixed phase meets its other leg, or two devices that both swap meet. A reversing district beside a fixed one is as it should be,
    /// and two cabs are brought into step by hand.
    /// </summary>
    private (MeetingKind Kind, FeederLeg From, FeederLeg To)? BridgedShort(int near, int far)
    {
        foreach (FeederLeg from in nets.Legs[nets.NetOf[near]])
        {
            foreach (FeederLeg to in nets.Legs[nets.NetOf[far]])
            {
                MeetingKind? kind = relations.Between(from, to);
                if (kind == MeetingKind.Short || (kind == MeetingKind.Reversing && relations.BothSwap(from, to)))
                {
                    return (kind.Value, from, to);
                }
            }
        }

        return null;
    }

    private FeederLeg? SameLeg(int first, int second)
    {
        ImmutableArray<FeederLeg> one = nets.Legs[nets.NetOf[first]], other = nets.Legs[nets.NetOf[second]];
        bool opposed = one.Any(leg => other.Any(beside => relations.Between(leg, beside) == MeetingKind.Short));
        foreach (FeederLeg leg in opposed ? [] : one)
        {
            if (other.Any(beside => beside.Leg == leg.Leg && relations.PhaseOf(beside.District) == relations.PhaseOf(leg.District)))
            {
                return leg;
            }
        }

        return null;
    }
}
