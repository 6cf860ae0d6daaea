using System.Collections.Immutable;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// Decides by how many quarter turns each edge of a map bends on squared paper so that every face closes, with the least
/// bending. Bending an edge of length L by τ beyond its natural turn costs τ²/L, the energy of an elastic strip.
/// </summary>
/// <remarks>
/// A minimum-cost flow of quarter turns between faces, solved by successive shortest paths.
/// Source: R. Tamassia, On embedding a graph in the grid with the minimum number of bends, SIAM J. Computing 16, 1987.
/// </remarks>
internal sealed class FaceTurns
{
    // The sides of a box stay straight whatever that costs others.
    private const double SideOfBox = 1e5;

    private readonly int[] _faceOfHalf;
    private readonly int _faces;
    private readonly int[] _natural;
    private readonly int[] _missing;
    private readonly double[] _weights;

    private FaceTurns(PlanarMap map, ImmutableArray<ImmutableArray<int>> faces, double[] edgeLengths)
    {
        (_faces, _faceOfHalf) = (faces.Length, map.FaceOfHalf());
        _weights = [.. edgeLengths.Select((length, edge) => map.Edges[edge].Run == BoxedMap.NoRun ? SideOfBox : 1 / (length + 0.5))];
        (_natural, _missing) = Natural(map, faces);
    }

    /// <summary>Turns to the left of each edge, from end to end, with a face chosen to lie outside.</summary>
    /// <param name="map">A connected map.</param>
    /// <param name="edgeLengths">Wanted length of each edge.</param>
    /// <param name="cancellation">Stops it.</param>
    public static (int[] Turns, int OuterFace) Choose(PlanarMap map, double[] edgeLengths, CancellationToken cancellation)
    {
        const int Candidates = 12;
        ImmutableArray<ImmutableArray<int>> faces = map.Faces();
        var solver = new FaceTurns(map, faces, edgeLengths);
        (double Cost, int Face, int[] Turns)? best = null;
        foreach (int face in Enumerable.Range(0, faces.Length).OrderByDescending(face => faces[face].Sum(half => edgeLengths[half / 2])).Take(Candidates))
        {
            cancellation.ThrowIfCancellationRequested();
            (double cost, int[] turns) = solver.Solve(face);
            if (best is null || cost < best.Value.Cost - 1e-9) best = (cost, face, turns);
        }

        return best is { } found ? (found.Turns, found.Face) : ([], 0);
    }

    // What each edge would turn by itself, and what every face then lacks of the four turns that close it.
    private static (int[] Natural, int[] Missing) Natural(PlanarMap map, ImmutableArray<ImmutableArray<int>> faces)
    {
        var natural = new int[map.Edges.Length];
        var angleAfter = new int[2 * map.Edges.Length];
        foreach (MapNode node in map.Nodes)
        {
            ImmutableArray<int> angles = NodeShape.Angles(node);
            for (int arm = 0; arm < angles.Length; arm++)
            {
                int half = node.Halves[arm], turn = NodeShape.TurnOnLeaving(node, arm);
                angleAfter[half] = angles[arm];
                natural[half / 2] += (half & 1) == 0 ? turn : -turn;
            }
        }

        return (natural, [.. faces.Select(face => 4 - face.Sum(half => 2 - angleAfter[half] + Signed(natural, half)))]);
    }

    private static int Signed(int[] turns, int half) => (half & 1) == 0 ? turns[half / 2] : -turns[half / 2];

    private (double Cost, int[] Turns) Solve(int outerFace)
    {
        int[] missing = [.. _missing], extra = new int[_natural.Length];
        missing[outerFace] -= 8;
        while (Array.Exists(missing, lack => lack < 0)) Augment(missing, extra);
        double cost = extra.Select((turns, edge) => turns * turns * _weights[edge]).Sum();
        return (cost, [.. extra.Select((turns, edge) => _natural[edge] + turns)]);
    }

    // Moves one quarter turn from a face with too many to one with too few along the cheapest chain of edges.
    private void Augment(int[] missing, int[] extra)
    {
        var cost = new double[_faces];
        var entered = new int[_faces];
        for (int face = 0; face < _faces; face++) (cost[face], entered[face]) = (missing[face] < 0 ? 0 : double.PositiveInfinity, -1);
        for (bool changed = true; changed;)
        {
            changed = false;
            for (int half = 0; half < _faceOfHalf.Length; half++)
            {
                // Turning the edge once more to the left of this half gives its left face a turn and takes one from its right.
                (int from, int to) = (_faceOfHalf[half ^ 1], _faceOfHalf[half]);
                double there = cost[from] + (((2 * Signed(extra, half)) + 1) * _weights[half / 2]);
                if (from == to || !(there < cost[to] - 1e-12)) continue;
                (cost[to], entered[to], changed) = (there, half, true);
            }
        }

        int goal = Enumerable.Range(0, _faces).Where(face => missing[face] > 0).MinBy(face => cost[face]);
        missing[goal]--;
        while (entered[goal] >= 0)
        {
            int half = entered[goal];
            extra[half / 2] += (half & 1) == 0 ? 1 : -1;
            goal = _faceOfHalf[half ^ 1];
        }

        missing[goal]++;
    }
}
