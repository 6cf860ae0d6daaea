using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>The two faces of a gap in one rail.</summary>
/// <param name="At">Where the gap is: a place of a section, or the joint of its first end.</param>
/// <param name="Side">The rail, seen as the gap's place is.</param>
/// <param name="Near">The node on the side of the joint's first end, or of the section's end a.</param>
/// <param name="Far">The node on the other side.</param>
internal readonly record struct GapFaces(GapPlace At, RailSide Side, int Near, int Far)
{
    /// <summary>Every gap and insulated joint, rail by rail, in the order of the layout; those that a contact bridges are among them.</summary>
    internal static IEnumerable<GapFaces> All(RailGraph graph) => [.. InJoints(graph), .. InSections(graph)];

    private static IEnumerable<GapFaces> InJoints(RailGraph graph)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        return from joint in graph.Layout.Joints
               let open = graph.Index.OpenRails(joint.First)
               from side in new[] { first, second }
               where open.Holds(side)
               select new GapFaces(
                   new GapPlace.InJoint(joint.First), side, graph.NodeAt(new(joint.First, side)), graph.NodeAt(new(joint.Second, side.Across())));
    }

    private static IEnumerable<GapFaces> InSections(RailGraph graph)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        foreach (Piece piece in graph.Layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            foreach (Station station in graph.Stations(piece.Id))
            {
                GapPlace at = new GapPlace.InSection(new(piece.Id, station.Metres));
                if (station.FirstTowardsA != station.FirstTowardsB)
                {
                    yield return new(at, first, station.FirstTowardsA, station.FirstTowardsB);
                }

                if (station.SecondTowardsA != station.SecondTowardsB)
                {
                    yield return new(at, second, station.SecondTowardsA, station.SecondTowardsB);
                }
            }
        }
    }
}
