using WireUp.Faults.Network;

namespace WireUp.Faults.Search;

/// <summary>How much all pairs of faults can weigh at most that were not fitted, so that a search which tries few of millions says what it may have missed.</summary>
/// <remarks>
/// With one value held a reading is a + b/(q + c) of the other, q and c never below 0, hence monotone; so over a rectangle of two values it lies
/// between the least and the greatest of the four corners. Each reading by itself is at most as likely as it is anywhere between them, and
/// a pair is at most as likely as the product. Every pair of parts is bounded so between sound and open; the weightiest are cut into cells, which
/// comes the closer to the integral the smaller they are. A pair of which one part moves no reading beside the other is no other
/// explanation than one fault, and is passed over.
/// </remarks>
internal sealed class PairBound
{
    /// <summary>Cells of a range of resistances, and the pairs of parts that are worth cutting into them.</summary>
    private const int Cells = 8, MostCut = 2000;

    private readonly Evidence _evidence;
    private readonly Respondents[] _cases;
    private readonly List<Member> _members;

    /// <param name="evidence">The readings.</param>
    /// <param name="cases">How hypotheses act in the case of each.</param>
    /// <param name="asked">Hypotheses that pairs are made of, in the order of their parts.</param>
    internal PairBound(Evidence evidence, Respondents[] cases, IEnumerable<int> asked)
    {
        (_evidence, _cases) = (evidence, cases);
        _members = [.. asked.GroupBy(h => cases[0].Hypotheses[h].Part.Element).Select(group => MemberOf([.. group]))];
    }

    /// <summary>The unfitted pairs that may weigh most, and the logarithm of the weight of all that are left.</summary>
    /// <param name="fitted">Pairs of hypotheses that need no bound.</param>
    /// <param name="most">How many pairs are named at most.</param>
    /// <param name="cancel">Stops the work.</param>
    internal (List<BoundedPair> Weightiest, double LogLeft) Find(IReadOnlySet<(int, int)> fitted, int most, CancellationToken cancel)
    {
        HashSet<(int, int)> parts = [.. fitted.Select(pair => (IndexOf(pair.Item1), IndexOf(pair.Item2)))];
        List<(int First, int Second, double Log)> coarse = Coarse(cancel);
        double[] logs = [.. coarse.Select(pair => pair.Log)];
        Array.Sort(logs);
        double least = logs.Length > MostCut ? logs[^MostCut] : double.NegativeInfinity;
        List<double> left = [];
        List<BoundedPair> cut = [];
        foreach ((int first, int second, double log) in coarse)
        {
            if (log >= least || parts.Contains((first, second)))
            {
                cancel.ThrowIfCancellationRequested();
                cut.AddRange(Cut(_members[first], _members[second]).Where(pair => !fitted.Contains((pair.First, pair.Second))));
            }
            else
            {
                left.Add(log);
            }
        }

        cut.Sort((one, other) => other.Log.CompareTo(one.Log));
        left.AddRange(cut.Skip(most).Select(pair => pair.Log));
        return (cut[..Math.Min(most, cut.Count)], Sum(left));
    }

    private Member MemberOf(int[] hypotheses)
    {
        (Probe.PlacedBranch?[] placed, Response[] alone) = (new Probe.PlacedBranch?[_cases.Length], new Response[_cases.Length]);
        for (int r = 0; r < _cases.Length; r++)
        {
            Probe probe = _evidence.Readings[r].Probe;
            placed[r] = _cases[r].Offered(hypotheses[0]) is { } offered ? probe.Place(offered) : null;
            alone[r] = placed[r] is null ? Response.None : _cases[r].Respond(probe, hypotheses[0]);
        }

        return new(hypotheses, Values(_cases[0].Hypotheses, hypotheses), placed, alone);
    }

    private int IndexOf(int hypothesis) => _members.FindIndex(member => member.Hypotheses.Contains(hypothesis));

    /// <summary>Every pair of parts of which each moves a reading, between sound and open.</summary>
    private List<(int First, int Second, double Log)> Coarse(CancellationToken cancel)
    {
        List<(int First, int Second, double Log)> found = [];
        double[] healthy = [.. _evidence.Readings.Select(reading => reading.Probe.Healthy)];
        double[][] alone = [.. _members.Select(member => _evidence.Readings.Select((reading, r) => reading.Probe.Healthy + member.Alone[r].Change(Respondents.OpenSiemens)).ToArray())];
        bool[] isStill = [.. alone.Select(shown => _evidence.AreAlike(shown, healthy))];
        double[] both = new double[healthy.Length];
        for (int i = 0; i < _members.Count; i++)
        {
            cancel.ThrowIfCancellationRequested();
            double[]?[] columns = Columns(_members[i]);
            for (int k = i + 1; k < _members.Count; k++)
            {
                Predict(_members[i], 0, _members[k], 0, columns, both);
                bool isNew = !(isStill[k] && _evidence.AreAlike(both, alone[i])) && !(isStill[i] && _evidence.AreAlike(both, alone[k]));
                if (isNew)
                {
                    found.Add((i, k, LogOdds(_members[i]) + LogOdds(_members[k]) + LogAtMost(healthy, alone[i], alone[k], both)));
                }
            }
        }

        return found;
    }

    /// <summary>A pair of parts by states, each range of resistance in cells.</summary>
    private IEnumerable<BoundedPair> Cut(Member first, Member second)
    {
        double[]?[] columns = Columns(first);
        double[,][] grid = new double[first.Q.Length, second.Q.Length][];
        for (int i = 0; i < first.Q.Length; i++)
        {
            for (int k = 0; k < second.Q.Length; k++)
            {
                grid[i, k] = new double[_evidence.Count];
                Predict(first, first.Q[i], second, second.Q[k], columns, grid[i, k]);
            }
        }

        foreach (int one in first.Hypotheses)
        {
            foreach (int other in second.Hypotheses)
            {
                yield return Bounded(one, first, other, second, grid);
            }
        }
    }

    private BoundedPair Bounded(int one, Member first, int other, Member second, double[,][] grid)
    {
        List<double> logs = [];
        (double most, int at, int along) = (double.NegativeInfinity, 0, 0);
        foreach ((int from, int to) in CellsOf(one, first))
        {
            foreach ((int start, int end) in CellsOf(other, second))
            {
                double log = LogAtMost(grid[from, start], grid[to, start], grid[from, end], grid[to, end]);
                logs.Add(log);
                (most, at, along) = log > most ? (log, from, start) : (most, at, along);
            }
        }

        double mean = Sum(logs) - Math.Log(logs.Count), odds = Hypotheses(one).LogOdds + Hypotheses(other).LogOdds;
        return new(one, Value(one, first.Q[at]), other, Value(other, second.Q[along]), mean + odds);
    }

    /// <summary>The first of the values is that of what is open; then follow the ends of the cells.</summary>
    private IEnumerable<(int From, int To)> CellsOf(int hypothesis, Member member) => Hypotheses(hypothesis).HasValue
        ? Enumerable.Range(1, member.Q.Length - 2).Select(i => (i, i + 1))
        : [(0, 0)];

    private double Value(int hypothesis, double q) => Hypotheses(hypothesis).HasValue ? 1 / q : double.NaN;

    private Hypothesis Hypotheses(int hypothesis) => _cases[0].Hypotheses[hypothesis];

    private double LogOdds(Member member) => Sum([.. member.Hypotheses.Select(h => Hypotheses(h).LogOdds)]);

    /// <summary>Logarithm of the likelihood of all readings where each lies between the corners.</summary>
    private double LogAtMost(double[] a, double[] b, double[] c, double[] d)
    {
        double sum = 0;
        for (int r = 0; r < a.Length; r++)
        {
            double least = Math.Min(Math.Min(a[r], b[r]), Math.Min(c[r], d[r])), most = Math.Max(Math.Max(a[r], b[r]), Math.Max(c[r], d[r]));
            sum += _evidence.Readings[r].LogAtMost(least, most, a.Length);
        }

        return sum;
    }

    private double[]?[] Columns(Member member)
    {
        Dictionary<Respondents, double[]?> columns = [];
        foreach (Respondents respondents in _cases)
        {
            columns.TryAdd(respondents, respondents[member.Any] is { } branch ? respondents.Circuit.Column(branch.From, branch.To) : null);
        }

        return [.. _cases.Select(respondents => columns[respondents])];
    }

    private void Predict(Member first, double firstQ, Member second, double secondQ, double[]?[] columns, double[] predicted)
    {
        (double one, double other) = (Math.Max(firstQ, Respondents.OpenSiemens), Math.Max(secondQ, Respondents.OpenSiemens));
        for (int r = 0; r < predicted.Length; r++)
        {
            Probe probe = _evidence.Readings[r].Probe;
            if (first.Placed[r] is { } changed && second.Placed[r] is { } added)
            {
                double between = probe.Circuit.Between(columns[r]!, changed.Offered.Branch, added.Offered.Branch);
                (double value, Response response) = probe.Given(changed, one, added, between);
                predicted[r] = value + response.Change(other);
            }
            else
            {
                predicted[r] = probe.Healthy + first.Alone[r].Change(one) + second.Alone[r].Change(other);
            }
        }
    }

    private static double[] Values(IReadOnlyList<Hypothesis> hypotheses, IEnumerable<int> group)
    {
        int? valued = group.Where(h => hypotheses[h].HasValue).Select(h => (int?)h).FirstOrDefault();
        return valued is { } found
            ? [0, .. Enumerable.Range(0, Cells + 1).Select(i => 1 / (hypotheses[found].Least!.Value * Math.Pow(hypotheses[found].Most!.Value / hypotheses[found].Least!.Value, (double)i / Cells)))]
            : [0];
    }

    private static double Sum(List<double> logs)
    {
        double most = logs.Count == 0 ? double.NegativeInfinity : logs.Max();
        return double.IsNegativeInfinity(most) ? most : most + Math.Log(logs.Sum(log => Math.Exp(log - most)));
    }

    /// <summary>A part with its faulty states, the conductances at which it is looked at, and what it is to each reading: beside another part, and alone.</summary>
    private sealed record Member(int[] Hypotheses, double[] Q, Probe.PlacedBranch?[] Placed, Response[] Alone)
    {
        /// <summary>Any of its hypotheses: all change the same branch.</summary>
        internal int Any => Hypotheses[0];
    }
}

/// <summary>A pair and the logarithm of what it weighs at most.</summary>
/// <param name="First">One hypothesis.</param>
/// <param name="FirstValue">Its value where the pair may weigh most.</param>
/// <param name="Second">The other.</param>
/// <param name="SecondValue">Its value there.</param>
/// <param name="Log">Logarithm of the weight.</param>
internal readonly record struct BoundedPair(int First, double FirstValue, int Second, double SecondValue, double Log);
