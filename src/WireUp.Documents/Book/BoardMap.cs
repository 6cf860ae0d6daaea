using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Documents.Book;

/// <summary>A line of bus as far as it lies on one board.</summary>
/// <param name="Line">Its name.</param>
/// <param name="District">Its district.</param>
/// <param name="Wire">Its size.</param>
/// <param name="Metres">How much of it lies there.</param>
/// <param name="AlsoOn">The other boards it lies on.</param>
internal sealed record BusOnBoard(string Line, string District, Wire Wire, double Metres, ImmutableArray<string> AlsoOn);

/// <summary>A line of bus that goes on from one board to another.</summary>
/// <param name="Line">Its name.</param>
/// <param name="District">Its district.</param>
/// <param name="At">Where it leaves the board.</param>
/// <param name="Board">The board it leaves.</param>
/// <param name="Other">The board it comes to.</param>
internal sealed record BusCrossing(string Line, string District, PlanPoint At, string Board, string Other)
{
    /// <summary>The same seen from the other board.</summary>
    public BusCrossing Turned => this with { Board = Other, Other = Board };
}

/// <summary>What lies on one board.</summary>
internal sealed record BoardParts
{
    /// <summary>Nothing.</summary>
    public static readonly BoardParts None = new();

    public ImmutableArray<string> Boosters { get; init; } = [];

    public ImmutableArray<BusOnBoard> Bus { get; init; } = [];

    public ImmutableArray<BusCrossing> Crossings { get; init; } = [];

    public ImmutableArray<BusMeeting> Points { get; init; } = [];

    public ImmutableArray<Feeder> Feeders { get; init; } = [];

    public ImmutableArray<ScheduledWire> FrogWires { get; init; } = [];

    public ImmutableArray<(string Label, Gap Gap)> Gaps { get; init; } = [];
}

/// <summary>Which parts of the wiring lie on which board. Each part is on the first board that holds its place; only bus lies on several.</summary>
internal sealed class BoardMap
{
    /// <summary>Stands for parts that lie on no board.</summary>
    public const string NoBoard = "";

    private const double LeastMetres = 0.001;

    private readonly BookFacts _facts;
    private readonly Areas _boards;
    private readonly Dictionary<(string District, string Point), string> _pointBoards = [];
    private readonly ImmutableArray<(string Board, BusRoute Route, double Metres)> _bus;

    private BoardMap(BookFacts facts)
    {
        (_facts, _boards) = (facts, new(facts.Layout.Benchwork.Boards));
        foreach (Bus bus in facts.Wiring.Buses)
        {
            BusPoints points = new(bus, facts.Layout, facts.Drawn.Geometry);
            foreach (string point in bus.Runs.SelectMany(run => new[] { run.From, run.To }).Distinct()) _pointBoards[(bus.District, point)] = BoardAt(points.At(point));
        }

        _bus = [.. facts.Drawn.Routes.SelectMany(OnBoards)];
        Crossings = [.. facts.Drawn.Routes.SelectMany(CrossingsOf)];
    }

    /// <summary>The map of a book's layout.</summary>
    public static BoardMap Of(BookFacts facts) => new(facts);

    /// <summary>Where lines of bus go on from one board to another.</summary>
    public ImmutableArray<BusCrossing> Crossings { get; }

    /// <summary>The feeders whose tap lies on another board than their rails, with both boards.</summary>
    public IEnumerable<(Feeder Feeder, string Board, string Other)> FeedersAcross =>
        from feeder in _facts.Feeders
        let board = BoardOf(feeder)
        let other = _pointBoards.GetValueOrDefault((feeder.District, feeder.Tap), NoBoard)
        where board != NoBoard && other != NoBoard && board != other
        select (feeder, board, other);

    /// <summary>What lies on a board, in the order of the other chapters.</summary>
    public BoardParts PartsOn(string board) => new()
    {
        Boosters = [.. _facts.Wiring.Boosters.Where(booster => BoardAt(BusPoints.Where(booster, _facts.Layout, _facts.Drawn.Geometry)) == board).Select(booster => booster.Name)],
        Bus = [.. BusOn(board)],
        Crossings = [.. Crossings.SelectMany(crossing => new[] { crossing, crossing.Turned }).Where(crossing => crossing.Board == board)],
        Points = [.. BusMeetings.Of(_facts.Layout, _facts.Schedule, _facts.Plan.Before).Where(meeting => _pointBoards[(meeting.Bus.District, meeting.Point)] == board)],
        Feeders = [.. _facts.Feeders.Where(feeder => BoardOf(feeder) == board)],
        FrogWires = [.. FrogWiresOn(board)],
        Gaps = [.. _facts.Gaps.Where(gap => BoardAt(PlaceOf(gap.Gap)) == board).Select(gap => (gap.Label, gap.Gap))],
    };

    /// <summary>A feeder's tap, with its board where that is another one than the feeder's.</summary>
    public string TapOf(Feeder feeder, string words) =>
        _pointBoards.TryGetValue((feeder.District, feeder.Tap), out string? board) && board.Length > 0 && board != BoardOf(feeder) ? $"{words} (board {board})" : words;

    private string BoardOf(Feeder feeder) => BoardAt(_facts.Drawn.Geometry.PointAt(feeder.At).At);

    private string BoardAt(PlanPoint? point) => point is { } at && _boards.At(at) is { } board ? board.Name : NoBoard;

    private PlanPoint? PlaceOf(Gap gap) => gap.At is GapPlace.InSection within
        ? _facts.Drawn.Geometry.PointAt(within.Place).At
        : _facts.Drawn.Places.OfEnd(((GapPlace.InJoint)gap.At).End)?.At;

    private IEnumerable<BusOnBoard> BusOn(string board) => _bus.Where(part => part.Board == board)
        .GroupBy(part => part.Route.Line)
        .Select(line => new BusOnBoard(
            line.Key,
            line.First().Route.District,
            line.First().Route.Run.Wire,
            line.Sum(part => part.Metres),
            [.. _bus.Where(part => part.Route.Line == line.Key && part.Board != board).Select(part => part.Board).Distinct()]));

    /// <summary>The shares of a run's length that lie on each board; a run is longer than it is drawn by its slack.</summary>
    private IEnumerable<(string Board, BusRoute Route, double Metres)> OnBoards(BusRoute route)
    {
        double drawn = Polyline.Length(route.Points);
        if (drawn < LeastMetres) return [(BoardAt(route.Points[0]), route, route.Run.Length.Meters)];
        return _facts.Layout.Benchwork.Boards
            .Select(board => (board.Name, Inside: drawn - new Areas([board]).Outside(route.Points).Sum(part => part.ToMetres - part.FromMetres)))
            .Where(part => part.Inside > LeastMetres)
            .Select(part => (part.Name, route, route.Run.Length.Meters * part.Inside / drawn));
    }

    /// <summary>The places at which a run comes from one board to another, looked for in steps and then between two of them.</summary>
    private IEnumerable<BusCrossing> CrossingsOf(BusRoute route)
    {
        const double StepMetres = 0.01;
        const int Halvings = 12;
        double length = Polyline.Length(route.Points);
        int steps = (int)Math.Ceiling(length / StepMetres);
        (string board, double at) = (BoardAt(route.Points[0]), 0);
        for (int i = 1; i <= steps; i++)
        {
            double next = length * i / steps;
            string other = BoardAt(Polyline.At(route.Points, next).At);
            if (other == NoBoard) continue;
            if (board != NoBoard && board != other)
            {
                (double left, double right) = (at, next);
                for (int k = 0; k < Halvings; k++)
                {
                    double middle = (left + right) / 2;
                    if (BoardAt(Polyline.At(route.Points, middle).At) == board) left = middle;
                    else right = middle;
                }

                yield return new(route.Line, route.District, Polyline.At(route.Points, left).At, board, other);
            }

            (board, at) = (other, next);
        }
    }

    private IEnumerable<ScheduledWire> FrogWiresOn(string board)
    {
        HashSet<string> owners =
        [
            .. _facts.Layout.Track.Where(piece => piece is not Piece.Section && BoardAt(_facts.Drawn.Places.MiddleOf(piece)?.At) == board).Select(piece => piece.Id.Name),
        ];
        return _facts.Schedule.Wires.Where(wire => wire.Kind == WireKind.Frog && owners.Contains(wire.Id.Split(':')[0]));
    }
}
