using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;
using WireUp.Layouts.Tracing.Junctions;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Joins the tracks that meet at a point of the plan: two by a joint, three by a turnout, four by a crossing.</summary>
internal sealed class TrackMeeting
{
    /// <summary>Lines that pass a point this near go through it; paths are written to a hundredth of a millimetre.</summary>
    public const double Touching = 1e-4;

    /// <summary>Track on each side of a place where a piece goes in, at least.</summary>
    private const double ShortestWay = 0.003;

    private readonly LayoutDocument _document;
    private readonly TextTree _tree;
    private readonly Layout _layout;
    private readonly LayoutIndex _index;
    private readonly double _gauge;
    private readonly double _heel;

    public TrackMeeting(LayoutDocument document, Layout layout)
    {
        (_document, _tree, _layout, _index) = (document, new(document.Text), layout, new(layout));
        _gauge = ScaleTable.FindOrUsual(layout.Scale).Gauge.Meters;
        _heel = _gauge * Constants.Get("turnout-heel-spread-over-gauge").Value;
    }

    /// <summary>Joins what meets at a point.</summary>
    /// <param name="at">The point.</param>
    /// <param name="number">Which of the places of an edit it is, for the names of questions.</param>
    /// <param name="answers">Answers given already.</param>
    public TrackOutcome At(PlanPoint at, int number, ImmutableDictionary<string, string> answers)
    {
        ImmutableArray<Way> ways = Ways(at);
        if (ways.FirstOrDefault(way => way.Branch().LengthMetres < ShortestWay) is { } shortest && ways.Length > 2)
        {
            return new TrackOutcome.Refused($"\"{shortest.Section.Id}\" goes on for less than {ShortestWay * 1000} mm here: end the line farther from its end, or at its end");
        }

        return ways.Length switch
        {
            < 2 => new TrackOutcome.Done(_document, ""),
            2 => Joint(ways),
            3 => Turnout(ways, at, Id("points", number), answers),
            4 => Crossing(ways, at, Id("crossing", number), answers),
            _ => new TrackOutcome.Refused($"more than two tracks would cross at {Where(at)}: move the line a little"),
        };
    }

    /// <summary>Every way out of a point along a section: two where one passes, one where one ends; those of sections joined there as well.</summary>
    public ImmutableArray<Way> Ways(PlanPoint at)
    {
        List<Way> ways = [];
        foreach (Piece.Section section in _layout.Track.OfType<Piece.Section>().Where(section => section.Path.Distinct().Count() > 1))
        {
            ImmutableArray<PlanPoint> path = TrackPaths.Of(section);
            foreach (double along in PathPoints.Passes(path, at, Touching))
            {
                bool begins = along <= 0, ends = along >= Polyline.Length(path);
                if (!begins && (!ends || IsFree(section.End("b")))) ways.Add(new(section, along, false));
                if (!ends && (!begins || IsFree(section.End("a")))) ways.Add(new(section, along, true));
            }
        }

        return [.. ways];
    }

    /// <summary>Whether an end is open or joined to plain track, so that a piece can go in.</summary>
    private bool IsFree(TrackEnd end) => _index.Opposite(end) is not { } other || _index.Piece(other.Piece) is Piece.Section;

    private TrackOutcome Joint(ImmutableArray<Way> ways)
    {
        // From an end b to an end a where it can be: so chains read.
        TrackEnd[] ends = [.. ways.Select(way => way.Section.End(way.Forward ? "a" : "b")).OrderByDescending(end => end.Name)];
        bool isPass = ways[0].Section.Id == ways[1].Section.Id && ways[0].At == ways[1].At;
        if (isPass || _index.Opposite(ends[0]) == ends[1])
        {
            return new TrackOutcome.Done(_document, "");
        }

        return ends.FirstOrDefault(end => _index.Opposite(end) is not null) is { Name: not null } taken
            ? new TrackOutcome.Refused($"{taken} is joined to {_index.Opposite(taken)} already")
            : Write(new() { Joined = [(ends[0], ends[1])] }, $"joined {ends[0]} to {ends[1]}");
    }

    private TrackOutcome Turnout(ImmutableArray<Way> ways, PlanPoint at, string id, ImmutableDictionary<string, string> answers)
    {
        ImmutableArray<Branch> branches = [.. ways.Select(way => way.Branch())];
        int? said = answers.TryGetValue(id, out string? answer) ? ways.IndexOf(ways.FirstOrDefault(way => Word(way) == answer)!) : null;
        TracedTurnout shape = TracedTurnout.Of(branches, _gauge, _heel, said is < 0 ? null : said);
        if (!shape.IsClear && said is null or < 0)
        {
            return new TrackOutcome.Asks(new(id, $"Three tracks meet at {Where(at)}. On which of them is the points end of the turnout?",
                [.. Enumerable.Range(0, 3).OrderBy(i => i == shape.Points ? 0 : 1).Select(i => new TrackAnswer(Word(ways[i]), Meaning(ways[i])))], at));
        }

        PieceId name = new NewNames(_layout).Next("T");
        string[] ends = shape.Hand == TurnoutHand.Wye ? ["points", "left", "right"] : ["points", "through", "diverging"];
        Snippet.Map text = Snippet.Of(
            ("turnout", Words.Of(Words.Turnout, shape.Hand)),
            ("curved", shape.Curved ? "true" : null),
            ("number", shape.Number.ToString(CultureInfo.InvariantCulture)),
            ("length", PlanText.Of(_tree).Number(shape.HeelMetres)));
        TrackChange change = new TrackCut(_layout, PlanText.Of(_tree)).PutIn(name, text,
            [.. ends.Select(end => (ways[shape.BranchOf(end)], end, end == "points" ? 0 : shape.HeelMetres))]);
        return Write(change, $"put in {name}, {HandWords(shape)} of number {shape.Number.ToString(CultureInfo.InvariantCulture)}{Cut(change)}");
    }

    private static string HandWords(TracedTurnout shape) => shape.Hand switch
    {
        TurnoutHand.Wye => "a wye",
        TurnoutHand.Left => $"a {(shape.Curved ? "curved " : "")}left-hand turnout",
        _ => $"a {(shape.Curved ? "curved " : "")}right-hand turnout",
    };

    private TrackOutcome Crossing(ImmutableArray<Way> ways, PlanPoint at, string id, ImmutableDictionary<string, string> answers)
    {
        ImmutableArray<Branch> branches = [.. ways.Select(way => way.Branch())];
        if (TracedCrossing.Of(branches, TracedTurnout.ReachOverGauge * _gauge, _heel) is not { } shape)
        {
            return new TrackOutcome.Refused($"four tracks would meet at {Where(at)}, and no two of them lead straight on: end the line a little to the side");
        }

        bool buildable = shape.AngleDegrees >= TracedCrossing.FlattestDegrees;
        return answers.GetValueOrDefault(id) switch
        {
            "bridge" => new TrackOutcome.Done(_document, $"let \"{ways[0].Section.Id}\" and \"{ways[^1].Section.Id}\" pass each other at {Where(at)}"),
            "crossing" when buildable => PutIn("X", "a crossing", [("crossing", Degrees(shape))]),
            "slip" when buildable && shape.AngleDegrees <= TracedCrossing.SlipMostDegrees => PutIn("S", "a double slip", [("slip", "double"), ("angle", Degrees(shape))]),
            _ => new TrackOutcome.Asks(new(id, $"The line crosses another track at {Where(at)}. Do they meet?", CrossingAnswers(shape), at)),
        };

        TrackOutcome PutIn(string stem, string what, (string, string?)[] keys)
        {
            PieceId name = new NewNames(_layout).Next(stem);
            Snippet.Map text = Snippet.Of([.. keys, ("length", PlanText.Of(_tree).Number(2 * shape.ArmMetres))]);
            TrackChange change = new TrackCut(_layout, PlanText.Of(_tree)).PutIn(name, text,
                [.. shape.Ends.Select((branch, i) => (ways[branch], TracedCrossing.EndNames[i], shape.ArmMetres))]);
            return Write(change, $"put in {name}, {what} of {Degrees(shape)}{Cut(change)}");
        }
    }

    private static ImmutableArray<TrackAnswer> CrossingAnswers(TracedCrossing shape)
    {
        List<TrackAnswer> answers = [new("bridge", "one passes over the other: they do not meet")];
        if (shape.AngleDegrees >= TracedCrossing.FlattestDegrees) answers.Insert(0, new("crossing", $"they cross on the level, at {Degrees(shape)}"));
        if (shape.AngleDegrees is >= TracedCrossing.FlattestDegrees and <= TracedCrossing.SlipMostDegrees) answers.Insert(1, new("slip", "a double slip: trains can change from one to the other"));
        return [.. answers];
    }

    private static string Degrees(TracedCrossing shape) => Math.Max(Math.Round(shape.AngleDegrees, 1), 1).ToString(CultureInfo.InvariantCulture) + " deg";

    private static string Cut(TrackChange change)
    {
        string[] cut = [.. change.Stretches.Where(pair => pair.Value.Length > 1).OrderBy(pair => pair.Key)
            .Select(pair => $"\"{pair.Key}\", which goes on as {string.Join(" and ", pair.Value.Skip(1).Select(part => $"\"{part.Piece}\""))}")];
        return cut.Length == 0 ? "" : $", cutting {string.Join(", and ", cut)}";
    }

    private TrackOutcome Write(TrackChange change, string what) =>
        new TrackOutcome.Done(TrackRewriter.Write(_document, _tree, _layout, change), what) { Made = [.. change.Added.Select(piece => piece.Name)] };

    private static string Word(Way way) => way.Section.End(way.Forward ? "b" : "a").ToString();

    private static string Meaning(Way way) => $"on \"{way.Section.Id}\", on the side of its end {(way.Forward ? "b" : "a")}";

    private static string Id(string what, int number) => string.Create(CultureInfo.InvariantCulture, $"{what}-{number}");

    private static string Where(PlanPoint at) => string.Create(CultureInfo.InvariantCulture, $"{at.X:0.###} m, {at.Y:0.###} m");
}
