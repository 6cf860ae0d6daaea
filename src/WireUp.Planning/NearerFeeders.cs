using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Districts;
using WireUp.Planning.Feeders;
using WireUp.Rails;
using static System.FormattableString;

namespace WireUp.Planning;

/// <summary>A feeder wanted nearer to a place, and why.</summary>
/// <param name="District">The district.</param>
/// <param name="Wish">The place, and how near.</param>
/// <param name="Reason">The reason in words.</param>
internal readonly record struct VoltsWish(string District, FeederWish Wish, string Reason);

/// <summary>
/// How near feeders must be to all places of a district so that it keeps its limits, as the solved circuit tells: the rail between a section's
/// worst place and its feeders may have as much resistance as it has now, and what is left up to the limit, or without what is too much.
/// </summary>
/// <remarks>
/// Where one side only has a feeder its whole way counts; in the middle between two, a quarter of the way from one to the other. So each
/// place lies within twice that many metres of a feeder, and each end of rail within that many. All of it is asked for at once, so that no feeder
/// that is drawn to one place leaves another.
/// </remarks>
/// <param name="draft">The plan so far.</param>
/// <param name="layout">The layout with its feeders and bus.</param>
/// <param name="report">The circuit of it.</param>
internal sealed class NearerFeeders(PlanDraft draft, Layout layout, PowerReport report)
{
    private const double FarMetres = 10, LeastMetres = 0.1, StepMetres = 0.2;

    private readonly FeedableTrack _track = new(RailGraph.Build(layout), new FeederOptions().MarginMetres);
    private readonly DistrictMap _map = DistrictMap.Of(draft.Layout, draft.Districts!.Districts);
    private readonly LayoutIndex _index = new(layout);

    /// <summary>All that is wanted in a district.</summary>
    /// <param name="district">The district.</param>
    /// <param name="tightness">Part of the metres that would do by this reckoning.</param>
    public IEnumerable<VoltsWish> In(DistrictPower district, double tightness)
    {
        FeederWays ways = new(_track, layout.Wiring.Feeders.Where(feeder => feeder.District == district.District).Select(feeder => feeder.At));
        return report.Sections.Where(section => section.District == district.District).Select(section => section.LargestLoop)
            .Append(district.LowestVolts).Append(district.LowestFault)
            .GroupBy(place => place.At.Section)
            .SelectMany(places => InSection(district, ways, [.. places], tightness));
    }

    private IEnumerable<VoltsWish> InSection(DistrictPower district, FeederWays ways, PlacePower[] places, double tightness)
    {
        FeedSpan[] spans = [.. _track.Spans.Where(span => span.Section == places[0].At.Section && _map.At(new(span.Section, span.MiddleMetres)) == district.District)];
        if (spans.Length == 0)
        {
            yield break;
        }

        (PlacePower worst, double metres) = places
            .Select(place => (place, Metres: ways.EffectiveMetres(Nearest(spans, place.At), FarMetres) - MetresTooMany(district, place)))
            .MinBy(pair => pair.Metres);
        foreach ((TrackPlace place, double part, bool isEnd) in spans.SelectMany(span => Places(span, ways)))
        {
            double within = Math.Max(LeastMetres, metres * part * tightness);
            if (within < layout.MaxFeederDistance.Meters)
            {
                yield return new(district.District, new(place, within, isEnd), Reason(district, worst, place, within));
            }
        }
    }

    /// <summary>Places of a span that stand for all of it, each with how far a feeder may be for every metre that it may be from an end of rail.</summary>
    private static IEnumerable<(TrackPlace Place, double Part, bool IsEnd)> Places(FeedSpan span, FeederWays ways)
    {
        int steps = (int)Math.Ceiling((span.ToMetres - span.FromMetres) / StepMetres);
        for (int step = 0; step <= steps; step++)
        {
            TrackPlace place = new(span.Section, Math.Round(span.FromMetres + ((span.ToMetres - span.FromMetres) * step / Math.Max(1, steps)), 4));
            int ending = Math.Max(step == 0 ? ways.EndingRails(place, isToEndA: true) : 0, step == steps ? ways.EndingRails(place, isToEndA: false) : 0);
            yield return (place, 4.0 / (2 + ending), ending > 0);
        }
    }

    private static TrackPlace Nearest(FeedSpan[] spans, TrackPlace place) => spans
        .Select(span => place with { MetresFromA = Math.Clamp(place.MetresFromA, span.FromMetres, span.ToMetres) })
        .MinBy(each => Math.Abs(each.MetresFromA - place.MetresFromA));

    /// <summary>How many metres of rail, there and back, have as much resistance as must go to bring a place within its limits; below 0 where more may come.</summary>
    private double MetresTooMany(DistrictPower district, PlacePower place)
    {
        double volts = district.SourceVolts.Volts;
        double trainAmps = Math.Min(report.DesignLoad!.HeaviestTrain.Amperes, district.DesignLoad.Amperes);
        double forVolts = (place.Drop - layout.MaxDrop).DecimalFractions * volts / trainAmps;
        double forFault = (volts / place.FaultCurrent.Amperes) - (volts / (district.Trip.Amperes * Constants.FaultOverTripGood.Value));
        RailMaterial rail = _index.Piece(place.At.Section) is Piece.Section { Rail: { } own } ? own : layout.Defaults.Rail;
        return Math.Max(forVolts, forFault) / (RailTable.RailsInLoop(layout.Control) * RailTable.OhmsPerMetre(rail, layout.Defaults.Temperature));
    }

    private string Reason(DistrictPower district, PlacePower worst, TrackPlace place, double within) =>
        Reason(layout, district, worst.Drop > layout.MaxDrop || worst.FaultCurrent >= district.Trip * Constants.FaultOverTripGood.Value, place, within);

    /// <summary>Why a feeder is wanted that near to a place.</summary>
    public static string Reason(Layout layout, DistrictPower district, bool isForVolts, TrackPlace place, double within) => Invariant($"It is wanted within {within:0.00} m of {place}: ") + (isForVolts
        ? Invariant($"with feeders farther off the volts there would drop by more than {layout.MaxDrop.Percent:0.#} % under the design load.")
        : Invariant($"with feeders farther off less than {Constants.FaultOverTripGood.Value:0.#} times the {district.Trip.Amperes:0.#} A at which the breaker of '{district.District}' trips would flow through a coin there."));
}
