namespace WireUp.Documents.Drawings;

/// <summary>What a line that labels look out for is.</summary>
internal enum ObstacleKind
{
    /// <summary>Rails and signs on them.</summary>
    Track,

    /// <summary>A bus or a tail: better left free.</summary>
    Faint,

    /// <summary>The leader line of another label.</summary>
    Leader,
}

/// <summary>A straight obstacle.</summary>
/// <param name="From">One end.</param>
/// <param name="To">The other.</param>
/// <param name="Half">Half its width in millimetres.</param>
/// <param name="Kind">What it is.</param>
internal readonly record struct Obstacle(ScenePoint From, ScenePoint To, double Half, ObstacleKind Kind);

/// <summary>What a box or a line would cover.</summary>
/// <param name="Labels">Other labels.</param>
/// <param name="LabelArea">Area shared with them in square millimetres.</param>
/// <param name="Track">Pieces of track.</param>
/// <param name="Faint">Pieces of bus or tails.</param>
/// <param name="Leaders">Leader lines.</param>
internal readonly record struct Overlap(int Labels, double LabelArea, int Track, int Faint, int Leaders);

/// <summary>Finds obstacles near a place quickly, by squares of a few millimetres.</summary>
internal sealed class ObstacleGrid
{
    private const double Square = 6;
    private readonly SceneBox _window;
    private readonly int _columns;
    private readonly List<int>[] _lineSquares;
    private readonly List<int>[] _boxSquares;
    private readonly List<Obstacle> _lines = [];
    private readonly List<SceneBox> _boxes = [];
    private readonly List<int> _seenLines = [];
    private readonly List<int> _seenBoxes = [];
    private int _question;

    public ObstacleGrid(SceneBox window)
    {
        _window = window.Grow(Square);
        _columns = Math.Max(1, (int)Math.Ceiling(_window.Width / Square));
        int rows = Math.Max(1, (int)Math.Ceiling(_window.Height / Square));
        _lineSquares = [.. Enumerable.Range(0, _columns * rows).Select(_ => new List<int>())];
        _boxSquares = [.. Enumerable.Range(0, _columns * rows).Select(_ => new List<int>())];
    }

    /// <summary>Adds a line; what lies outside the window is left out.</summary>
    public void Add(Obstacle line)
    {
        if (Clip.Segment(line.From, line.To, _window) is not var (from, to)) return;
        _lines.Add(line with { From = from, To = to });
        _seenLines.Add(0);
        foreach (int square in Squares(SceneBox.Around([from, to]).Grow(line.Half))) _lineSquares[square].Add(_lines.Count - 1);
    }

    /// <summary>Adds a box.</summary>
    public void Add(SceneBox box)
    {
        _boxes.Add(box);
        _seenBoxes.Add(0);
        foreach (int square in Squares(box)) _boxSquares[square].Add(_boxes.Count - 1);
    }

    /// <summary>What a box would cover.</summary>
    public Overlap Meets(SceneBox box)
    {
        OverlapCount count = default;
        int question = ++_question;
        Range squares = RangeOf(box.Grow(1));
        for (int row = squares.Top; row <= squares.Bottom; row++)
        {
            for (int column = squares.Left; column <= squares.Right; column++)
            {
                int square = (row * _columns) + column;
                foreach (int line in _lineSquares[square])
                {
                    if (_seenLines[line] == question) continue;
                    _seenLines[line] = question;
                    if (Covers(box, _lines[line])) count.Add(_lines[line].Kind);
                }

                foreach (int other in _boxSquares[square])
                {
                    if (_seenBoxes[other] == question) continue;
                    _seenBoxes[other] = question;
                    count.AddLabel(box.OverlapWith(_boxes[other]));
                }
            }
        }

        return count.Total;
    }

    /// <summary>Whether a box would cover track or a label.</summary>
    public bool IsTaken(SceneBox box)
    {
        Range squares = RangeOf(box.Grow(1));
        for (int row = squares.Top; row <= squares.Bottom; row++)
        {
            for (int column = squares.Left; column <= squares.Right; column++)
            {
                int square = (row * _columns) + column;
                foreach (int other in _boxSquares[square])
                {
                    if (box.OverlapWith(_boxes[other]) > 0) return true;
                }

                foreach (int line in _lineSquares[square])
                {
                    if (_lines[line].Kind == ObstacleKind.Track && Covers(box, _lines[line])) return true;
                }
            }
        }

        return false;
    }

    /// <summary>What a line would cross.</summary>
    public Overlap Meets(ScenePoint from, ScenePoint to)
    {
        OverlapCount count = default;
        int question = ++_question;
        Range squares = RangeOf(SceneBox.Around([from, to]));
        for (int row = squares.Top; row <= squares.Bottom; row++)
        {
            for (int column = squares.Left; column <= squares.Right; column++)
            {
                int square = (row * _columns) + column;
                foreach (int line in _lineSquares[square])
                {
                    if (_seenLines[line] == question) continue;
                    _seenLines[line] = question;
                    if (Cross(from, to, _lines[line].From, _lines[line].To)) count.Add(_lines[line].Kind);
                }

                foreach (int other in _boxSquares[square])
                {
                    if (_seenBoxes[other] == question) continue;
                    _seenBoxes[other] = question;
                    if (Clip.Segment(from, to, _boxes[other]) is not null) count.AddLabel(1e-6);
                }
            }
        }

        return count.Total;
    }

    private IEnumerable<int> Squares(SceneBox box)
    {
        Range range = RangeOf(box);
        for (int row = range.Top; row <= range.Bottom; row++)
        {
            for (int column = range.Left; column <= range.Right; column++) yield return (row * _columns) + column;
        }
    }

    private Range RangeOf(SceneBox box)
    {
        int rows = _lineSquares.Length / _columns;
        return new(
            Index(box.Left - _window.Left, _columns),
            Index(box.Right - _window.Left, _columns),
            Index(box.Top - _window.Top, rows),
            Index(box.Bottom - _window.Top, rows));

        static int Index(double distance, int count) => Math.Clamp((int)(distance / Square), 0, count - 1);
    }

    private static bool Covers(SceneBox box, Obstacle line) => Clip.Segment(line.From, line.To, box.Grow(line.Half)) is not null;

    private static bool Cross(ScenePoint a, ScenePoint b, ScenePoint c, ScenePoint d) =>
        Side(a, b, c) * Side(a, b, d) < 0 && Side(c, d, a) * Side(c, d, b) < 0;

    private static double Side(ScenePoint a, ScenePoint b, ScenePoint p) => ((b.X - a.X) * (p.Y - a.Y)) - ((b.Y - a.Y) * (p.X - a.X));

    private readonly record struct Range(int Left, int Right, int Top, int Bottom);

    private struct OverlapCount
    {
        private int _labels;
        private double _labelArea;
        private int _track;
        private int _faint;
        private int _leaders;

        public readonly Overlap Total => new(_labels, _labelArea, _track, _faint, _leaders);

        public void Add(ObstacleKind kind)
        {
            if (kind == ObstacleKind.Track) _track++;
            else if (kind == ObstacleKind.Faint) _faint++;
            else _leaders++;
        }

        public void AddLabel(double sharedArea)
        {
            if (sharedArea <= 0) return;
            _labels++;
            _labelArea += sharedArea;
        }
    }
}
