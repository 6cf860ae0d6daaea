using System.Collections.Immutable;
using UnitsNet;
using WireUp.Faults.Network;
using WireUp.Faults.Next;
using WireUp.Faults.Parts;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Faults;

/// <summary>A joint to measure in a yearly survey, before it stops a train.</summary>
/// <param name="Part">The joint or blade.</param>
/// <param name="Reading">The reading to make: volts across it, the load beside it.</param>
/// <param name="Expected">What it shows when all is well.</param>
/// <param name="Suspect">From here on it is worth mending.</param>
/// <param name="Probability">Chance that it is faulty already.</param>
/// <param name="LostVolts">Volts that the place beside it would lose, on the average of the ways in which it fails.</param>
/// <param name="Minutes">Minutes of work.</param>
/// <param name="Reach">From where.</param>
public sealed record SurveyRow(
    FaultElement Part, MeterReading.VoltsAlong Reading, ElectricPotential Expected, ElectricPotential Suspect,
    double Probability, ElectricPotential LostVolts, double Minutes, Reach Reach)
{
    /// <summary>What measuring it is worth: volts that are expected to be lost, for each minute of work.</summary>
    public double Worth => Probability * LostVolts.Volts / Minutes;
}

/// <summary>Which joints and blades are most worth measuring: probability times volts lost, over minutes.</summary>
public static class FaultSurvey
{
    /// <summary>A healthy joint of this many ohms or more, or as many times what the layout reckons with, is suspect.</summary>
    private static readonly double SuspectOhms = Constants.Get("joint-suspect").Value;

    private const double SuspectTimes = 3;

    /// <summary>The rows most worth measuring, turnouts in their first position.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="priors">How often its parts fail.</param>
    /// <param name="load">What the load draws at full volts.</param>
    /// <param name="most">Most rows.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The rows, the worthiest first; none where the layout has no booster.</returns>
    public static ImmutableArray<SurveyRow> Of(Layout layout, FaultPriors priors, ElectricCurrent load, int most, CancellationToken cancel = default)
    {
        if (Session.Open(layout, ReadingSet.None with { LoadBox = load }, priors) is not { } session)
        {
            return [];
        }

        List<SurveyRow> rows = [];
        foreach (IGrouping<Part, Hypothesis> part in session.Hypotheses.Where(IsSurveyed).GroupBy(hypothesis => hypothesis.Part))
        {
            cancel.ThrowIfCancellationRequested();
            if (Row(session, part) is { } row)
            {
                rows.Add(row);
            }
        }

        return [.. rows.OrderByDescending(row => row.Worth).ThenBy(row => row.Part.Place, StringComparer.Ordinal).Take(most)];
    }

    private static bool IsSurveyed(Hypothesis hypothesis) => hypothesis.Part is { Spot: Spot.OfLink }
        && hypothesis.Part.Element.Kind is FaultElementKind.Joiner or FaultElementKind.SolderedJoint or FaultElementKind.Blade;

    private static SurveyRow? Row(Session session, IGrouping<Part, Hypothesis> part)
    {
        RailGraph graph = session.Circuit.Circuit.Graph;
        int link = ((Spot.OfLink)part.Key.Spot).Link;
        (RailPoint from, RailPoint to) = (graph.Nodes[graph.Links[link].From], graph.Nodes[graph.Links[link].To]);
        if (session.Circuit.SeriesOfLink(link) is not { } branch || Touch(from) is not { } first || Touch(to) is not { } second)
        {
            return null;
        }

        MeterReading.VoltsAlong? reading = null;
        double expected = 0;
        foreach (ReadingPlace place in new[] { from.Piece, to.Piece }.Distinct().SelectMany(piece => Places(graph.Index.Piece(piece))))
        {
            MeterReading.VoltsAlong tried = new(first, second, ElectricPotential.Zero) { Load = new(place, session.Set.LoadBox) };
            double shown = Math.Abs(session.Builder.Of(tried)!.Probe.Healthy);
            (reading, expected) = shown > expected ? (tried, shown) : (reading, expected);
        }

        return reading is null ? null : Row(session, part, branch, reading, expected);
    }

    private static SurveyRow Row(Session session, IGrouping<Part, Hypothesis> part, Branch branch, MeterReading.VoltsAlong reading, double expected)
    {
        double all = part.Sum(hypothesis => Math.Exp(hypothesis.LogOdds));
        double lost = part.Sum(hypothesis => Math.Exp(hypothesis.LogOdds) * Lost(session, branch, reading.Load!, hypothesis)) / all;
        double suspect = expected / branch.Ohms * Math.Max(SuspectOhms, SuspectTimes * branch.Ohms);
        Candidate work = Candidate.Of(reading);
        return new(part.Key.Element, reading, ElectricPotential.FromVolts(expected), ElectricPotential.FromVolts(suspect),
            all / (1 + all), ElectricPotential.FromVolts(lost), work.Minutes, work.Reach);
    }

    /// <summary>Volts that the loaded place loses: all of them where nothing else leads there, else as the circuit says.</summary>
    private static double Lost(Session session, Branch branch, ReadingLoad load, Hypothesis hypothesis)
    {
        Probe probe = session.Builder.Of(new MeterReading.Volts(load.At, ElectricPotential.Zero) { Load = load })!.Probe;
        double conductance = hypothesis is { Least: { } least, Most: { } most } ? 1 / Math.Sqrt(least * most) : 0;
        double change = probe.Of(branch, session.Circuit.Own(branch), session.Circuit.Drive(branch)).Change(conductance);
        return double.IsFinite(change) ? Math.Min(Math.Abs(change), Math.Abs(probe.Healthy)) : Math.Abs(probe.Healthy);
    }

    private static IEnumerable<ReadingPlace> Places(Piece piece) => piece.PlacesMetres is > 0
        ? [new ReadingPlace.Along(new(piece.Id, piece.PlacesMetres.Value / 2))]
        : piece is Piece.Stop ? [] : piece.Ends.Select(end => new ReadingPlace.AtEnd(end));

    private static ReadingPoint? Touch(RailPoint point) => point switch
    {
        RailPoint.AtEnd at => new ReadingPoint.AtEnd(at.Rail),
        RailPoint.Inside inside when inside.Name.StartsWith(TrackworkTable.Frog, StringComparison.Ordinal) => new ReadingPoint.AtFrog(inside.Owner, inside.Name),
        _ => null,
    };
}
