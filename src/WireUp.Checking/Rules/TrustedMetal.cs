using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Rules;

/// <summary>A place of a rail that lies beyond the trusted reach of every feeder.</summary>
/// <param name="At">The place farthest from any feeder on its length of rail.</param>
/// <param name="Side">The rail, seen from end a to end b.</param>
/// <param name="Metres">How far it is; infinite where only joiners lead to it that are too many or not trusted.</param>
internal sealed record FarRail(TrackPlace At, RailSide Side, double Metres);

/// <summary>
/// How far each rail is from a feeder along metal that can be trusted: solid rail, soldered joints, and as many slide-on joiners
/// as the alloy of the rail bears: one at most.
/// Blades, contacts and gaps do not count as metal; the contact of a feeder is part of the feeder.
/// </summary>
internal static class TrustedMetal
{
    private const double ToleranceMetres = 1e-3;

    /// <summary>Rails beyond the layout's limit, in the order of the track; rails without a feeder of their own are left to other rules.</summary>
    internal static IEnumerable<FarRail> Beyond(CheckContext context)
    {
        double most = context.Layout.MaxFeederDistance.Meters;
        double[] nearest = Nearest(context);
        foreach (RailLink.Rail rail in context.Graph.Links.OfType<RailLink.Rail>())
        {
            // Metal leads along the rail itself, so that either both ends are reached or none.
            (double from, double to) = (nearest[rail.From], nearest[rail.To]);
            if (context.Polarity.LegsAt(rail.From).IsEmpty && double.IsInfinity(from))
            {
                continue;
            }

            double farthest = (from + to + rail.LengthMetres) / 2;
            if (farthest > most + ToleranceMetres)
            {
                double along = double.IsInfinity(from) ? rail.LengthMetres / 2 : Math.Clamp(farthest - from, 0, rail.LengthMetres);
                yield return new(new(rail.Section, Math.Round(rail.StartMetres + along, 3)), rail.Side, farthest);
            }
        }
    }

    /// <summary>For each node the way to the nearest feeder, with the joiner spent or not, whichever is shorter.</summary>
    private static double[] Nearest(CheckContext context)
    {
        RailGraph graph = context.Graph;
        List<RailLink>[] touching = [.. graph.Nodes.Select(_ => new List<RailLink>())];
        foreach (RailLink link in graph.Links.Where(link => link is not RailLink.Contact || IsOfFeeder(graph, link)))
        {
            touching[link.From].Add(link);
            touching[link.To].Add(link);
        }

        double[] nearest = new double[(TrustedJoiners.Most + 1) * graph.Nodes.Length];
        Array.Fill(nearest, double.PositiveInfinity);
        PriorityQueue<int, (double Metres, int State)> open = new();
        foreach (Feeder feeder in context.Wiring.Feeders)
        {
            (int legA, int legB) = FeederPoints.Of(graph, feeder);
            Offer(legA, 0, 0);
            Offer(legB, 0, 0);
        }

        while (open.TryDequeue(out int state, out (double Metres, int State) priority))
        {
            (int joiners, int node) = Math.DivRem(state, graph.Nodes.Length);
            foreach (RailLink link in priority.Metres > nearest[state] ? [] : touching[node])
            {
                (double metres, int more) = Cost(graph, link);
                Offer(link.Opposite(node), joiners + more, priority.Metres + metres);
            }
        }

        return [.. graph.Nodes.Select((_, node) => Enumerable.Range(0, TrustedJoiners.Most + 1).Min(spent => nearest[(spent * graph.Nodes.Length) + node]))];

        void Offer(int node, int joiners, double metres)
        {
            int state = (joiners * graph.Nodes.Length) + node;
            if (joiners <= TrustedJoiners.Most && metres < nearest[state])
            {
                nearest[state] = metres;
                open.Enqueue(state, (metres, state));
            }
        }
    }

    private static bool IsOfFeeder(RailGraph graph, RailLink link) => graph.Nodes[link.From] is RailPoint.AtWire || graph.Nodes[link.To] is RailPoint.AtWire;

    private static (double Metres, int Joiners) Cost(RailGraph graph, RailLink link) => link switch
    {
        RailLink.Rail rail => (rail.LengthMetres, 0),
        RailLink.Bond bond => (bond.LengthMetres, 0),
        RailLink.Through through => (0, TrustedJoiners.Spent(graph, through.Joint)),
        RailLink.Contact => (0, 0),
        _ => throw new InvalidOperationException($"unknown link {link}"),
    };
}
