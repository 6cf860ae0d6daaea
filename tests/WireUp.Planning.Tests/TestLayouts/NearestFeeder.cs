using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Rails;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>How far the nearest feeder is from a place, along metal that always conducts.</summary>
internal static class NearestFeeder
{
    /// <summary>Metres, measured on the rail where it is farther; infinite beyond a limit.</summary>
    public static double Metres(FeedableTrack track, TrackPlace place, IEnumerable<TrackPlace> feeders, double limitMetres)
    {
        TrustedReach near = new(track, limitMetres, anyJoiners: true);
        (int Link, double Metres)[] points = [.. feeders.SelectMany(feeder => track.BothLinksAt(feeder).Select(link => (link, feeder.MetresFromA)))];
        return track.BothLinksAt(place).Max(link =>
        {
            Reach reach = near.FromPoint(link, place.MetresFromA);
            return points
                .Where(point => reach.Holds(point.Link, point.Metres))
                .Select(point => Math.Min(
                    point.Link == link ? Math.Abs(point.Metres - place.MetresFromA) : double.PositiveInfinity,
                    Along(track.Graph, reach, point.Link, point.Metres)))
                .DefaultIfEmpty(double.PositiveInfinity).Min();
        });
    }

    private static double Along(RailGraph graph, Reach reach, int link, double metres)
    {
        RailLink.Rail rail = (RailLink.Rail)graph.Links[link];
        return Math.Min(
            reach.NodeMetres.GetValueOrDefault(rail.From, double.PositiveInfinity) + metres - rail.StartMetres,
            reach.NodeMetres.GetValueOrDefault(rail.To, double.PositiveInfinity) + rail.EndMetres - metres);
    }
}
