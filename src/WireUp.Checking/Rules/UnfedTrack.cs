using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>Rails that no feeder reaches in any position; one finding for each joined-up stretch of track.</summary>
internal sealed class UnfedTrack : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Physics("WU3010", Severity.Error, "A rail has no feed");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        ParityGraph parity = context.Polarity.Parity;
        ImmutableHashSet<RailPoint> told = DeadStretch.Points(context);
        return context.Polarity.Unfed
            .Where(rail => !told.Contains(PointOf(context.Graph, rail)))
            .GroupBy(rail => parity.Components[parity.PartAt(new TrackPlace(rail.Section, (rail.FromMetres + rail.ToMetres) / 2))])
            .OrderBy(stretch => stretch.Key)
            .Select(stretch => Tell(context, [.. stretch]));
    }

    /// <summary>The rail's point where it begins.</summary>
    private static RailPoint PointOf(RailGraph graph, UnfedRail rail)
    {
        Station from = graph.Stations(rail.Section).First(station => station.Metres >= rail.FromMetres);
        return graph.Nodes[rail.Side is RailSide.Left or RailSide.Centre ? from.FirstTowardsB : from.SecondTowardsB];
    }

    private Finding Tell(CheckContext context, List<UnfedRail> rails)
    {
        List<PieceId> sections = [.. rails.Select(rail => rail.Section).Distinct()];
        bool both = sections.TrueForAll(section => rails.Where(rail => rail.Section == section).Select(rail => rail.Side).Distinct().Count() == 2);
        string names = Words.List(sections.Select(section => section.ToString()));
        string message = (context.Wiring.Feeders.IsEmpty, both) switch
        {
            (true, _) => $"Nothing feeds {names}, because the layout has no feeder yet.",
            (_, true) => $"No feeder reaches {names}, in any position of the turnouts.",
            _ => $"No feeder reaches a rail of {names}, in any position of the turnouts.",
        };
        return Say(message, $"Put a feeder at {Words.Quote(sections[0])}.", rails.Select(rail => PlaceOf(context, rail)));
    }

    private static string PlaceOf(CheckContext context, UnfedRail rail)
    {
        bool whole = rail.FromMetres <= 0 && rail.ToMetres >= context.Index.Piece(rail.Section).PlacesMetres;
        string place = whole ? rail.Section.ToString() : new TrackPlace(rail.Section, (rail.FromMetres + rail.ToMetres) / 2).ToString();
        return $"{place}/{RailSides.Word(rail.Side)}";
    }
}
