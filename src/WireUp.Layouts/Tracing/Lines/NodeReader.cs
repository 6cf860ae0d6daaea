using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts.Tracing.Junctions;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>Reads off the lines at a node which piece of trackwork lies there.</summary>
internal sealed class NodeReader(double gaugeMetres, double heelMetres, ImmutableDictionary<string, string> answers)
{
    private const double Straight = 2 * Math.PI / 3;

    private static readonly string[] Directions = ["right", "upper-right", "up", "upper-left", "left", "lower-left", "down", "lower-right"];

    private readonly Dictionary<string, int> _asked = new(StringComparer.Ordinal);

    /// <summary>What is at a node.</summary>
    /// <param name="at">The node.</param>
    /// <param name="branches">The tracks that leave it.</param>
    public NodeVerdict Read(PlanPoint at, ImmutableArray<Branch> branches) => branches.Length switch
    {
        0 or 1 => NodeVerdict.Open(branches.Length),
        2 => Two(at, branches),
        3 => Turnout(at, branches),
        4 => Four(at, branches),
        _ => Unclear(at, branches),
    };

    private NodeVerdict Two(PlanPoint at, ImmutableArray<Branch> branches)
    {
        NodeVerdict joined = NodeVerdict.Open(2) with { Passes = [(0, 1)] };
        double reach = TracedTurnout.ReachOverGauge * gaugeMetres;
        if (Branch.Between(branches[0].Bearing(reach), branches[1].Bearing(reach)) >= LineTracks.SharpBelow)
        {
            return joined;
        }

        TakenAnswer taken = Ask("joint", at, "Two lines meet at a sharp corner. Is that one track?",
            [new("joined", "one track goes round the corner"), new("apart", "two tracks end beside each other")]);
        return (taken.Taken.Word == "joined" ? joined : NodeVerdict.Open(2)) with { Question = taken };
    }

    private NodeVerdict Turnout(PlanPoint at, ImmutableArray<Branch> branches)
    {
        TracedTurnout shape = TracedTurnout.Of(branches, gaugeMetres, heelMetres);
        TakenAnswer? question = null;
        if (!shape.IsClear)
        {
            ImmutableArray<string> words = Words(branches);
            int[] order = [.. Enumerable.Range(0, 3).OrderBy(i => i == shape.Points ? 0 : 1)];
            question = Ask("points", at, "Three tracks meet, and their directions do not show where the points of the turnout are. Where?",
                [.. order.Select(i => new TrackAnswer(words[i], $"on the track that leaves {Spoken(words[i])}")), new("apart", "nowhere: the tracks are not joined")]);
            if (question.Taken.Word == "apart")
            {
                return NodeVerdict.Open(3) with { Question = question };
            }

            shape = TracedTurnout.Of(branches, gaugeMetres, heelMetres, words.IndexOf(question.Taken.Word));
        }

        (string End, double Takes)?[] ends = new (string, double)?[3];
        foreach (string end in shape.Hand == TurnoutHand.Wye ? new[] { "points", "left", "right" } : ["points", "through", "diverging"])
        {
            ends[shape.BranchOf(end)] = (end, end == "points" ? 0 : shape.HeelMetres);
        }

        return new NodeVerdict("T", name => Turnout(name, shape), [.. ends]) with { Question = question };
    }

    private static Piece.Turnout Turnout(PieceId name, TracedTurnout shape) => new(name, shape.Hand, FrogKind.Insulated)
    {
        Curved = shape.Curved,
        Number = shape.Number,
        Length = Rounded(shape.HeelMetres),
    };

    private NodeVerdict Four(PlanPoint at, ImmutableArray<Branch> branches)
    {
        if (TracedCrossing.Of(branches, TracedTurnout.ReachOverGauge * gaugeMetres, heelMetres) is { } shape)
        {
            return Crossing(at, branches, shape);
        }

        return ThreeWay(branches) ?? Unclear(at, branches);
    }

    private NodeVerdict Crossing(PlanPoint at, ImmutableArray<Branch> branches, TracedCrossing shape)
    {
        double angle = Math.Max(Math.Round(shape.AngleDegrees, 1), TracedCrossing.FlattestDegrees);
        string degrees = angle.ToString(CultureInfo.InvariantCulture);
        List<TrackAnswer> possible = [new("crossing", $"a crossing of {degrees} deg"), new("bridge", "no: one passes over the other")];
        if (angle <= TracedCrossing.SlipMostDegrees)
        {
            possible.Insert(1, new("slip", "a double slip: trains can change from one to the other"));
        }

        TakenAnswer question = Ask("crossing", at, "Two tracks cross. Do they meet?", [.. possible]);
        if (question.Taken.Word == "bridge")
        {
            return NodeVerdict.Open(4) with { Passes = [(shape.Ends[0], shape.Ends[2]), (shape.Ends[1], shape.Ends[3])], Question = question };
        }

        (string, double)?[] ends = new (string, double)?[4];
        for (int i = 0; i < 4; i++) ends[shape.Ends[i]] = (TracedCrossing.EndNames[i], shape.ArmMetres);
        Length length = Rounded(2 * shape.ArmMetres);
        NodeVerdict verdict = question.Taken.Word == "slip"
            ? new("S", name => new Piece.Slip(name, true, FrogKind.Insulated) { Angle = Angle.FromDegrees(angle), Length = length }, [.. ends])
            : new("X", name => new Piece.Crossing(name, Angle.FromDegrees(angle), FrogKind.Insulated) { Length = length }, [.. ends]);
        return verdict with { Question = question };
    }

    /// <summary>Three legs that leave away from a fourth track; null where the tracks lie otherwise.</summary>
    private NodeVerdict? ThreeWay(ImmutableArray<Branch> branches)
    {
        double reach = TracedTurnout.ReachOverGauge * gaugeMetres;
        double[] bearings = [.. branches.Select(branch => branch.Bearing(reach))];
        int stem = Array.FindIndex(bearings, one => bearings.Count(other => Branch.Between(one, other) >= Straight) == 3);
        if (stem < 0)
        {
            return null;
        }

        int[] legs = [.. Enumerable.Range(0, 4).Where(i => i != stem).OrderByDescending(i => Branch.Turn(bearings[i] - bearings[stem] - Math.PI))];
        double shortest = legs.Min(leg => branches[leg].LengthMetres);
        double parting = new[] { (legs[0], legs[1]), (legs[1], legs[2]) }.Max(pair => Branch.Parting(branches[pair.Item1], branches[pair.Item2], heelMetres) ?? shortest);
        double heel = Math.Min(parting, shortest / 3);
        (string, double)?[] ends = new (string, double)?[4];
        ends[stem] = ("points", 0);
        foreach ((int leg, string end) in legs.Zip(["left", "through", "right"])) ends[leg] = (end, heel);
        return new("W", name => new Piece.MultiTurnout(name, 3, FrogKind.Insulated) { Length = Rounded(heel) }, [.. ends]);
    }

    /// <summary>More tracks than any piece joins: the two that lead straightest into each other stay one track.</summary>
    private NodeVerdict Unclear(PlanPoint at, ImmutableArray<Branch> branches)
    {
        double reach = TracedTurnout.ReachOverGauge * gaugeMetres;
        (int First, int Second) straightest = (
            from first in Enumerable.Range(0, branches.Length)
            from second in Enumerable.Range(first + 1, branches.Length - first - 1)
            select (first, second)).MaxBy(pair => Branch.Between(branches[pair.first].Bearing(reach), branches[pair.second].Bearing(reach)));
        TakenAnswer question = Ask("meeting", at, $"{branches.Length} tracks meet in a way that no turnout or crossing joins. What is there?",
            [new("straight", "the two that lead straightest into each other are one track, the others end"), new("apart", "all of them end")]);
        return NodeVerdict.Open(branches.Length) with { Passes = question.Taken.Word == "straight" ? [straightest] : [], Question = question };
    }

    private TakenAnswer Ask(string what, PlanPoint at, string text, ImmutableArray<TrackAnswer> possible)
    {
        int number = _asked[what] = _asked.GetValueOrDefault(what) + 1;
        TrackQuestion question = new(string.Create(CultureInfo.InvariantCulture, $"{what}-{number}"), text, possible, at);
        TrackAnswer? given = answers.TryGetValue(question.Id, out string? word) ? possible.FirstOrDefault(each => each.Word == word) : null;
        return new(question, given ?? possible[0], given is not null);
    }

    /// <summary>In which direction each track leaves, in words that are all different.</summary>
    private ImmutableArray<string> Words(ImmutableArray<Branch> branches)
    {
        List<string> words = [];
        foreach (Branch branch in branches)
        {
            double bearing = branch.Bearing(TracedTurnout.ReachOverGauge * gaugeMetres);
            string word = Directions[(int)Math.Round(bearing / (Math.PI / 4) + 8) % 8];
            words.Add(words.Contains(word) ? $"{word}-{words.Count + 1}" : word);
        }

        return [.. words];
    }

    private static string Spoken(string direction) => direction is "up" or "down" ? $"{direction}ward" : $"to the {direction.Replace('-', ' ')}";

    private static Length Rounded(double metres) => Length.FromMeters(TracedMeasure.Rounded(metres));
}
