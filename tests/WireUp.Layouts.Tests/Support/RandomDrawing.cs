using System.Globalization;
using System.Text;

namespace WireUp.Layouts.Tests.Support;

/// <summary>
/// A track plan grown by chance from a seed: straight runs between turnouts of known hand and number and crossings of known angle; and the same
/// plan as an SVG drawing, every line written in another way.
/// </summary>
internal sealed class RandomDrawing
{
    private static readonly double[] Numbers = [4, 5, 6, 8];

    private readonly Random _random;
    private readonly bool _hasCrossings;
    private readonly List<(PlanPoint From, PlanPoint To)> _runs = [];
    private readonly List<(string From, string To)> _shape = [];
    private readonly List<int> _open = [];
    // For each turnout the run to its points and the run of its through leg, which may be drawn as one line.
    private readonly List<(int Stem, int Through)> _straight = [];

    public RandomDrawing(int seed, int steps, bool hasCrossings = true)
    {
        // A seed per case, so that a failing case can be made again.
        _random = new Random(seed);
        _hasCrossings = hasCrossings;
        PlanPoint start = new(0, 0);
        Run($"open {TracedShape.Place(start)}", start, Ahead(start, _random.NextDouble() * 2 * Math.PI, 0.6));
        for (int i = 0; i < steps && _open.Count > 0; i++) Grow();
    }

    /// <summary>What is joined to what, as <see cref="TracedShape.Of"/> writes it.</summary>
    public IReadOnlyList<string> Shape =>
        [.. _shape.Select(run => string.Join(" - ", new[] { run.From, run.To }.Order(StringComparer.Ordinal))).Order(StringComparer.Ordinal)];

    /// <summary>Every point at which a run ends.</summary>
    public IReadOnlyCollection<PlanPoint> Points => [.. _runs.SelectMany(run => new[] { run.From, run.To }).Distinct()];

    public int Nodes { get; private set; }

    /// <summary>An open run goes on farther, if there is room, and may come to a turnout or crossing.</summary>
    private void Grow()
    {
        int choice = _random.Next(_open.Count);
        int run = _open[choice];
        _open.RemoveAt(choice);
        (PlanPoint from, PlanPoint at) = _runs[run];
        double bearing = Math.Atan2(at.Y - from.Y, at.X - from.X);
        PlanPoint end = Ahead(at, bearing, 0.2 + _random.NextDouble());
        if (!HasRoom(at, end, run))
        {
            return;
        }

        End(run, end, $"open {TracedShape.Place(end)}");
        if (!_hasCrossings || _random.Next(4) > 0)
        {
            Turnout(run, end, bearing);
        }
        else
        {
            Crossing(run, end, bearing);
        }
    }

    private void Turnout(int stem, PlanPoint at, double bearing)
    {
        double number = Numbers[_random.Next(Numbers.Length)];
        bool left = _random.Next(2) == 0;
        double turn = bearing + ((left ? 1 : -1) * 2 * Math.Atan(1 / (2 * number)));
        if (!HasRoom(at, Ahead(at, bearing, 0.6), stem) || !HasRoom(at, Ahead(at, turn, 0.6), stem))
        {
            return;
        }

        string node = $"{(left ? TurnoutHand.Left : TurnoutHand.Right)} {number.ToString(CultureInfo.InvariantCulture)} {TracedShape.Place(at)}";
        End(stem, at, $"{node} points");
        Run($"{node} through", at, Ahead(at, bearing, 0.6));
        _straight.Add((stem, _runs.Count - 1));
        Run($"{node} diverging", at, Ahead(at, turn, 0.6));
        Nodes++;
    }

    private void Crossing(int stem, PlanPoint at, double bearing)
    {
        double angle = 30 + (5 * _random.Next(13));
        double across = bearing + (angle * Math.PI / 180);
        PlanPoint[] tips = [Ahead(at, bearing, 0.5), Ahead(at, across, 0.5), Ahead(at, across + Math.PI, 0.5)];
        if (tips.Any(tip => !HasRoom(at, tip, stem)))
        {
            return;
        }

        string node = $"crossing {Math.Round(angle).ToString(CultureInfo.InvariantCulture)} {TracedShape.Place(at)}";
        End(stem, at, node);
        foreach (PlanPoint tip in tips) Run(node, at, tip);
        _straight.Add((stem, _runs.Count - 3));
        Nodes++;
    }

    private void Run(string from, PlanPoint at, PlanPoint end)
    {
        _open.Add(_runs.Count);
        _runs.Add((at, end));
        _shape.Add((from, $"open {TracedShape.Place(end)}"));
    }

    private void End(int run, PlanPoint end, string to)
    {
        _runs[run] = _runs[run] with { To = end };
        _shape[run] = _shape[run] with { To = to };
    }

    private static PlanPoint Ahead(PlanPoint at, double bearing, double metres) => new(at.X + (metres * Math.Cos(bearing)), at.Y + (metres * Math.Sin(bearing)));

    /// <summary>Whether a new stretch stays 9 cm clear of every run but those that begin where it begins, and the one that leads there.</summary>
    private bool HasRoom(PlanPoint from, PlanPoint to, int behind) => !_runs.Where((run, i) => i != behind && run.From != from).Any(run =>
        Enumerable.Range(0, 31).Any(i => Enumerable.Range(0, 31).Any(j =>
            Polyline.Distance(Polyline.Between(from, to, i / 30.0), Polyline.Between(run.From, run.To, j / 30.0)) < 0.09)));

    /// <summary>The plan as a drawing of one unit a millimetre, its origin at the lower left corner of the page.</summary>
    public string Svg()
    {
        StringBuilder text = new("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 -1000 1000 1000\"><g fill=\"none\" stroke=\"#123\">\n");
        foreach (List<PlanPoint> line in Lines())
        {
            text.Append(Element([.. line.Select(point => (X: point.X * 1000, Y: -point.Y * 1000))])).Append('\n');
        }

        return text.Append("</g></svg>").ToString();
    }

    /// <summary>The runs; some of those that lead straight into each other as one line, some turned round.</summary>
    private List<List<PlanPoint>> Lines()
    {
        int?[] next = new int?[_runs.Count];
        bool[] isSecond = new bool[_runs.Count];
        foreach ((int stem, int through) in _straight.Where(pair => _runs[pair.Stem].To == _runs[pair.Through].From && _random.Next(2) == 0))
        {
            next[stem] = through;
            isSecond[through] = true;
        }

        List<List<PlanPoint>> lines = [];
        for (int run = 0; run < _runs.Count; run++)
        {
            if (isSecond[run]) continue;
            List<PlanPoint> line = [_runs[run].From];
            for (int? part = run; part is { } at; part = next[at]) line.Add(_runs[at].To);
            if (_random.Next(2) == 0) line.Reverse();
            lines.Add(line);
        }

        return lines;
    }

    private string Element((double X, double Y)[] line) => _random.Next(5) switch
    {
        0 when line.Length == 2 => $"<line x1=\"{N(line[0].X)}\" y1=\"{N(line[0].Y)}\" x2=\"{N(line[1].X)}\" y2=\"{N(line[1].Y)}\"/>",
        1 => $"<polyline points=\"{string.Join(' ', line.Select(point => $"{N(point.X)},{N(point.Y)}"))}\"/>",
        2 => $"<path d=\"m{N(line[0].X)} {N(line[0].Y)}{string.Concat(line.Skip(1).Select((point, i) => $"l{N(point.X - line[i].X)} {N(point.Y - line[i].Y)}"))}\"/>",
        3 => $"<g transform=\"translate(100,-50) scale(.5)\"><path d=\"M{string.Join(" L ", line.Select(point => $"{N((point.X - 100) * 2)} {N((point.Y + 50) * 2)}"))}\"/></g>",
        _ => $"<path d=\"M{string.Join('C', [$"{N(line[0].X)} {N(line[0].Y)} ", .. line.Skip(1).Select((point, i) => $"{Third(line[i], point, 1)} {Third(line[i], point, 2)} {N(point.X)} {N(point.Y)} ")])}\"/>",
    };

    private static string Third((double X, double Y) from, (double X, double Y) to, int thirds) =>
        $"{N(from.X + (thirds * (to.X - from.X) / 3))} {N(from.Y + (thirds * (to.Y - from.Y) / 3))}";

    private static string N(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);
}
