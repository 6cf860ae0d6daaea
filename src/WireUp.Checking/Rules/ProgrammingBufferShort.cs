using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>
/// Too little dead track between a programming track and running track: an engine that stands on both joins the booster to the
/// programming output. Dead counts as dead while the programming track is on. Nor may the running track beyond be a reversing section.
/// </summary>
internal sealed class ProgrammingBufferShort : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU3023", Severity.Error, "Too little dead track beside a programming track");

    internal override IEnumerable<Finding> Check(CheckContext context) =>
        from district in context.Wiring.Districts
        where district.Use == DistrictUse.Programming
        from track in Tracks(context, district.Name).GroupBy(track => Words.Set(track.When))
        let found = Nearest(context, [.. track], track.First().When)
        where found is not null
        from finding in Of(context, district, found.Value, track.First().When)
        select finding;

    /// <summary>
    /// What an engine needs: the longest pick-up wheel base that the file knows, and a margin. The engine itself is longer; its length
    /// is not in the file.
    /// </summary>
    internal static (Length Pickup, Length Needed) Needed(Layout layout)
    {
        double metres = UnderWheels.LongestPickup(layout);
        return (Length.FromMeters(metres), Length.FromMeters(metres + Constants.Get("programming-buffer-margin").Value));
    }

    private IEnumerable<Finding> Of(
        CheckContext context, District district, (Stretch Stretch, string Running) found, ImmutableSortedDictionary<PieceId, string> when)
    {
        (Length pickup, Length needed) = Needed(context.Layout);
        Length free = Length.FromMeters(found.Stretch.Metres);
        string while_ = when.IsEmpty ? "" : $" while {Words.Set(when)}";
        bool touches = !Limit.IsBelow(0, free.Meters);
        if (Limit.IsBelow(free.Meters, needed.Meters))
        {
            yield return Say(
                $"Between the track of programming district {Words.Quote(district.Name)} and district {Words.Quote(found.Running)} at {Words.Quote(found.Stretch.At)} there is {(touches ? "no" : Words.Say(free) + " of")} dead track{while_}, less than the {Words.Say(pickup)} of the longest pick-up wheel base in the file and {Words.Say(needed - pickup)}.",
                $"Leave track between two pairs of gaps dead{while_}, as long as your longest engine over all and {Words.Say(needed - pickup)}; {Words.Say(needed)} is the least.",
                district.Name, found.Stretch.At) with
            {
                Severity = when.IsEmpty && touches ? Severity.Error : Severity.Warning,
                Turnouts = when,
            };
        }

        if (context.Wiring.Districts.Any(other => other.Name == found.Running && other.Reversing))
        {
            yield return Say(
                $"The nearest running track to programming district {Words.Quote(district.Name)} is reversing district {Words.Quote(found.Running)} at {Words.Quote(found.Stretch.At)}, whose device may swap when an engine comes off the programming track.",
                "Put track of a fixed district between the programming track and the reversing section.",
                district.Name, found.Running) with
            {
                Severity = Severity.Warning,
                Turnouts = when,
            };
        }
    }

    /// <summary>Every stretch between stations that the district can feed, and the positions in which it does.</summary>
    private static IEnumerable<(PieceId Section, int Station, ImmutableSortedDictionary<PieceId, string> When)> Tracks(CheckContext context, string district) =>
        from section in context.Layout.Track.OfType<Piece.Section>()
        let stations = context.Graph.Stations(section.Id)
        from i in Enumerable.Range(0, stations.Length - 1)
        let way = new[] { stations[i].FirstTowardsB, stations[i].SecondTowardsB }
            .SelectMany(node => context.Ways.At(node)).FirstOrDefault(way => way.Wire.District == district)
        where way is not null
        from end in new[] { i, i + 1 }
        select (section.Id, end, way.When);

    private static (Stretch Stretch, string Running)? Nearest(
        CheckContext context, ImmutableArray<(PieceId Section, int Station, ImmutableSortedDictionary<PieceId, string>)> from, ImmutableSortedDictionary<PieceId, string> when)
    {
        TrackWalk walk = new(context.Graph, stretch => Running(context, stretch, when) is not null);
        foreach ((PieceId section, int station, _) in from)
        {
            walk.Around(section, station);
        }

        return walk.Nearest() is { } found ? (found, Running(context, found, when)!) : null;
    }

    private static string? Running(CheckContext context, Stretch stretch, ImmutableSortedDictionary<PieceId, string> when) =>
        new[] { stretch.First, stretch.Second }.SelectMany(node => context.Ways.At(node))
            .FirstOrDefault(way => TrainSupplies.UseOf(context, way.Wire) == DistrictUse.Running && FeedWays.Agree(way.When, when))?.Wire.District;
}
