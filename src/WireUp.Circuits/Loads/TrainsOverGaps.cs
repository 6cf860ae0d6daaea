using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Circuits;

/// <summary>
/// What a train over a gap between the districts of two boosters carries although it may stand still: its wheels and wires join the
/// two, and the booster of more volts feeds the other's track.
/// </summary>
/// <remarks>
/// Symbols, over the rails that are cut: d volts between the two faces without load, Z the matrix of volts lost between the faces for each
/// ampere that passes them, R what the train puts between them. (Z + R·1)·i = d. Districts of separate circuits are joined by both rails
/// or not at all: one loop, i = (u − u′)/(z + z′ + 2R), u and z volts and loop resistance on either side. No train and no load stands
/// anywhere else. Gaps between opposite polarities are left out: a train there is a short, not a balance.
/// </remarks>
public static class TrainsOverGaps
{
    /// <summary>Every gap between districts of different boosters that a train can stand over, in the order of the layout.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="positions">How turnouts and switches stand; one that is not named stands in its first position.</param>
    /// <returns>None where there are not two boosters, or the circuit cannot be solved.</returns>
    public static ImmutableArray<TrainOverGap> Of(RailGraph graph, ImmutableSortedDictionary<PieceId, string> positions)
    {
        if (graph.Layout.Wiring.Boosters.Length < 2)
        {
            return [];
        }

        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, positions));
        if (model.Outcome is not FactorOutcome.Solved)
        {
            return [];
        }

        double[] open = model.Potentials([]);
        SourcePaths paths = new(model);
        return [.. Borders(graph).Select(border => Look(model, paths, open, border)).OfType<TrainOverGap>()];
    }

    /// <summary>Of each two districts the gap where a train carries most, in the order in which the pairs come first.</summary>
    public static IEnumerable<TrainOverGap> WorstOfEachPair(IEnumerable<TrainOverGap> trains) => trains
        .GroupBy(train => string.CompareOrdinal(train.District, train.OtherDistrict) < 0
            ? (train.District, train.OtherDistrict)
            : (train.OtherDistrict, train.District))
        .Select(pair => pair.MaxBy(train => train.Current.Amperes)!);

    private static IEnumerable<Border> Borders(RailGraph graph)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        foreach (Joint joint in graph.Layout.Joints)
        {
            RailSet open = graph.Index.OpenRails(joint.First);
            if (open != RailSet.None)
            {
                yield return new(
                    new GapPlace.InJoint(joint.First),
                    new(graph.NodeAt(new(joint.First, first)), graph.NodeAt(new(joint.Second, first.Across())), open.Holds(first)),
                    new(graph.NodeAt(new(joint.First, second)), graph.NodeAt(new(joint.Second, second.Across())), open.Holds(second)));
            }
        }

        foreach (Piece piece in graph.Layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            foreach (Station at in graph.Stations(piece.Id).Where(at => at.FirstTowardsA != at.FirstTowardsB || at.SecondTowardsA != at.SecondTowardsB))
            {
                yield return new(
                    new GapPlace.InSection(new(piece.Id, at.Metres)),
                    new(at.FirstTowardsA, at.FirstTowardsB, at.FirstTowardsA != at.FirstTowardsB),
                    new(at.SecondTowardsA, at.SecondTowardsB, at.SecondTowardsA != at.SecondTowardsB));
            }
        }
    }

    private static TrainOverGap? Look(NodalModel model, SourcePaths paths, double[] open, in Border border)
    {
        if (!model.Unknowns.AreFedTogether(border.First.Near, border.Second.Near)
            || !model.Unknowns.AreFedTogether(border.First.Far, border.Second.Far))
        {
            return null;
        }

        int near = paths.Between(border.First.Near, border.Second.Near).District, far = paths.Between(border.First.Far, border.Second.Far).District;
        if (near < 0 || far < 0 || model.Circuit.Districts[near].Source == model.Circuit.Districts[far].Source)
        {
            return null;
        }

        double nearVolts = model.VoltsBetween(border.First.Near, border.Second.Near, open), farVolts = model.VoltsBetween(border.First.Far, border.Second.Far, open);
        if (nearVolts * farVolts <= 0)
        {
            return null;
        }

        double ohms = Constants.Get("train-over-gap-resistance").Value;
        double amps = model.Unknowns.Part(border.First.Near) == model.Unknowns.Part(border.First.Far)
            ? WithinOnePart(model, open, border, ohms)
            : BetweenParts(model, border, nearVolts - farVolts, ohms);
        return new(
            border.At,
            model.Circuit.Districts[near].District.Name,
            model.Circuit.Districts[far].District.Name,
            ElectricPotential.FromVolts(Math.Abs(nearVolts) - Math.Abs(farVolts)),
            ElectricCurrent.FromAmperes(amps));
    }

    private static double WithinOnePart(NodalModel model, double[] open, in Border border, double ohms)
    {
        Faces[] cut = [.. new[] { border.First, border.Second }.Where(faces => faces.IsCut)];
        DenseWorkspace matrix = new(cut.Length);
        double[] amps = new double[cut.Length];
        for (int j = 0; j < cut.Length; j++)
        {
            double[] response = model.Response([(cut[j].Near, 1), (cut[j].Far, -1)]);
            amps[j] = model.VoltsBetween(cut[j].Near, cut[j].Far, open);
            for (int k = 0; k < cut.Length; k++)
            {
                matrix[k, j] = model.ValueBetween(cut[k].Near, cut[k].Far, response) + (k == j ? ohms : 0);
            }
        }

        // Positive definite: never fails.
        matrix.Factor();
        matrix.Solve(amps);
        return amps.Max(Math.Abs);
    }

    private static double BetweenParts(NodalModel model, in Border border, double volts, double ohms) =>
        Math.Abs(volts) / (Loop(model, border.First.Near, border.Second.Near) + Loop(model, border.First.Far, border.Second.Far) + (2 * ohms));

    private static double Loop(NodalModel model, int first, int second)
    {
        double[] response = model.Response([(first, 1), (second, -1)]);
        return model.ValueBetween(first, second, response);
    }

    /// <summary>One rail at a gap: its nodes on either side, and whether it is cut.</summary>
    private readonly record struct Faces(int Near, int Far, bool IsCut);

    private readonly record struct Border(GapPlace At, Faces First, Faces Second);
}

/// <summary>What a train over a gap between the districts of two boosters carries, no load anywhere.</summary>
/// <param name="At">The gap.</param>
/// <param name="District">The district on the side of the joint's first end, or of the section's end a.</param>
/// <param name="OtherDistrict">The district on the other side.</param>
/// <param name="Difference">Volts between the rails of the first less those of the other, without load and without a train.</param>
/// <param name="Current">Current through the train's wheels and wires, in the rail that carries more.</param>
public sealed record TrainOverGap(GapPlace At, string District, string OtherDistrict, ElectricPotential Difference, ElectricCurrent Current);
