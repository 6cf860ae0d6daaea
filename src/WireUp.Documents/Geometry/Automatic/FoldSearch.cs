using System.Collections.Immutable;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// Folds a long line so that the plan fills a sheet. Edges around which no face closes turn as they like: first one after
/// another, then by annealing with a seeded throw of dice; the smallest plan met on the way is kept.
/// </summary>
internal sealed class FoldSearch
{
    private const int RoundsOfTrial = 2, MostTrials = 600, EdgesOfMostTrials = 80, EdgesOfFewTrials = 280, FewestTrials = 15, Passes = 3;
    private const double ExcessPrice = 0.1, BendPrice = 3, ShortestFold = 0.9, Hottest = 4;
    private const int Seed = 20;

    private readonly PlanarMap _map;
    private readonly double[] _lengths;
    private readonly int _outer;
    private readonly int[] _natural;
    private int _trials;
    private int[] _best;
    private double _price;

    /// <summary>A search from the shape that bends least.</summary>
    public FoldSearch(PlanarMap map, double[] lengths, int[] natural, int outer)
    {
        (_map, _lengths, _natural, _outer, _best) = (map, lengths, natural, outer, natural);
        double edges = Math.Max(1, map.Edges.Length);
        _trials = (int)Math.Clamp(MostTrials * EdgesOfMostTrials / edges * Math.Min(1, EdgesOfFewTrials / edges), FewestTrials, MostTrials);
        _price = Price(natural);
    }

    /// <summary>The best turns found.</summary>
    public int[] Fold(CancellationToken cancellation)
    {
        ImmutableArray<int> free = [.. Free().OrderByDescending(edge => _lengths[edge])];
        if (free.IsEmpty) return _best;
        for (int pass = 0; pass < Passes; pass++)
        {
            int[] before = _best;
            foreach (int edge in free)
            {
                int[] now = _best;
                foreach (int turn in Choices(edge).Where(turn => turn != now[edge]))
                {
                    int[] trial = [.. now];
                    trial[edge] = turn;
                    Try(trial, cancellation);
                }
            }

            if (before == _best) break;
        }

        Anneal(free, cancellation);
        return _best;
    }

    // Simulated annealing. Source: S. Kirkpatrick et al., Optimization by Simulated Annealing, Science 220, 1983.
    private void Anneal(ImmutableArray<int> free, CancellationToken cancellation)
    {
        var random = new Random(Seed);
        (int[] now, double price, int trials) = (_best, _price, _trials);
        while (_trials > 0)
        {
            // Long edges matter most: an edge's chance falls with its rank.
            int edge = free[(int)(free.Length * random.NextDouble() * random.NextDouble())];
            int[] choices = Choices(edge);
            int[] trial = [.. now];
            trial[edge] = choices[random.Next(choices.Length)];
            double other = Try(trial, cancellation), heat = Hottest * _trials / trials;
            if (other < price || random.NextDouble() < Math.Exp((price - other) / Math.Max(heat, 1e-9))) (now, price) = (trial, other);
        }
    }

    private double Try(int[] trial, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (_trials-- <= 0) return double.PositiveInfinity;
        double price = Price(trial);
        if (price < _price - 1e-6) (_best, _price) = (trial, price);
        return price;
    }

    private int[] Choices(int edge) => _map.LeadsNowhere(edge) ? [0, _natural[edge], -_natural[edge]] : [-2, -1, 0, 1, 2];

    // Edges with the same face on either side, if they are long enough to turn round or lead to an end of track.
    private IEnumerable<int> Free()
    {
        int[] faceOf = _map.FaceOfHalf();
        return Enumerable.Range(0, _map.Edges.Length).Where(edge => faceOf[2 * edge] == faceOf[(2 * edge) + 1]
            && (_lengths[edge] >= ShortestFold || _map.LeadsNowhere(edge)));
    }

    // The size of the sheet, what edges are longer than wanted, and what the folds bend.
    private double Price(int[] turns)
    {
        GridPlan plan = GridPlan.Of(_map, _lengths, turns, (_outer, RoundsOfTrial));
        PlanBox box = PlanBox.Around(plan.Nodes.Concat(plan.Bends.SelectMany(bends => bends)));
        double upright = Math.Max(box.Width / SidePacking.Aspect, box.Height), lying = Math.Max(box.Height / SidePacking.Aspect, box.Width);
        double price = Math.Min(upright, lying);
        for (int edge = 0; edge < turns.Length; edge++)
        {
            int bent = turns[edge] - _natural[edge];
            price += ExcessPrice * Math.Max(0, plan.Length(_map.Edges[edge], edge) - (1.3 * _lengths[edge]) - 3);
            price += BendPrice * bent * bent / (_lengths[edge] + 0.5);
        }

        return price;
    }
}
