using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>
/// Turns path data into lines. Source: Scalable Vector Graphics (SVG) 1.1, W3C 2011, chapter 8.3 and, for arcs, appendix F.6. What follows
/// something that cannot be read is left out, as the standard asks.
/// </summary>
internal sealed class SvgPathData
{
    private readonly SvgNumbers _numbers;
    private readonly SvgCurves _curves;
    private readonly List<ImmutableArray<PlanPoint>> _lines = [];
    private List<PlanPoint> _line = [];
    private PlanPoint _at;
    private PlanPoint _start;
    private PlanPoint? _control;
    private char _kind = 'L';

    private SvgPathData(string data, double tolerance) => (_numbers, _curves) = (new(data), new(tolerance));

    /// <summary>The lines of path data, and whether all of it could be read.</summary>
    /// <param name="data">The data.</param>
    /// <param name="tolerance">How far a straight piece may be off its curve, in units of the data.</param>
    public static (ImmutableArray<ImmutableArray<PlanPoint>> Lines, bool IsWhole) Lines(string data, double tolerance)
    {
        SvgPathData path = new(data, tolerance);
        bool isWhole = path.Read();
        path.End();
        return ([.. path._lines], isWhole);
    }

    private bool Read()
    {
        char? command = null;
        while (!_numbers.IsAtEnd)
        {
            char? letter = _numbers.Letter();
            // Numbers without a letter repeat the last command; behind a move they are lines.
            command = letter ?? command switch { 'M' => 'L', 'm' => 'l', 'Z' or 'z' => null, _ => command };
            if (command is not { } known || (_lines.Count == 0 && _line.Count == 0 && known is not ('M' or 'm')) || !Do(char.ToUpperInvariant(known), char.IsLower(known)))
            {
                return false;
            }
        }

        return true;
    }

    private bool Do(char command, bool isRelative)
    {
        PlanPoint from = isRelative ? _at : default;
        switch (command)
        {
            case 'M':
                return Point(from) is { } start && Move(start);
            case 'Z':
                return Close();
            case 'L':
                return Point(from) is { } to && Line(to);
            case 'H':
                return _numbers.Number() is { } x && Line(new(from.X + x, _at.Y));
            case 'V':
                return _numbers.Number() is { } y && Line(new(_at.X, from.Y + y));
            case 'C':
                return (Point(from), Point(from), Point(from)) is ({ } c1, { } c2, { } c3) && Cubic(c1, c2, c3);
            case 'S':
                return (Point(from), Point(from)) is ({ } s2, { } s3) && Cubic(Mirrored('C'), s2, s3);
            case 'Q':
                return (Point(from), Point(from)) is ({ } q1, { } q2) && Quadratic(q1, q2);
            case 'T':
                return Point(from) is { } t && Quadratic(Mirrored('Q'), t);
            case 'A':
                return Arc(from);
            default:
                return false;
        }
    }

    // The control point of a smooth curve mirrors that of the curve of the same kind before it.
    private PlanPoint Mirrored(char kind) => _control is { } control && _kind == kind ? new((2 * _at.X) - control.X, (2 * _at.Y) - control.Y) : _at;

    private PlanPoint? Point(PlanPoint from) => (_numbers.Number(), _numbers.Number()) is ({ } x, { } y) ? new(from.X + x, from.Y + y) : null;

    private bool Move(PlanPoint to)
    {
        End();
        (_start, _at, _control) = (to, to, null);
        _line.Add(to);
        return true;
    }

    private bool Close()
    {
        Line(_start);
        End();
        _line.Add(_start);
        return true;
    }

    private bool Line(PlanPoint to) => Go([to], null);

    private bool Cubic(PlanPoint one, PlanPoint two, PlanPoint to) => Go(_curves.Cubic(_at, one, two, to), two, 'C');

    private bool Quadratic(PlanPoint control, PlanPoint to) => Go(_curves.Quadratic(_at, control, to), control, 'Q');

    private bool Arc(PlanPoint from) =>
        (_numbers.Number(), _numbers.Number(), _numbers.Number(), _numbers.Flag(), _numbers.Flag()) is ({ } rx, { } ry, { } turn, { } large, { } sweep)
        && Point(from) is { } to && Go(_curves.Arc(_at, (rx, ry, turn), (large, sweep), to), null);

    private bool Go(IEnumerable<PlanPoint> points, PlanPoint? control, char kind = 'L')
    {
        _line.AddRange(points);
        (_at, _control, _kind) = (_line[^1], control, kind);
        return true;
    }

    private void End()
    {
        if (_line.Count > 1) _lines.Add([.. _line]);
        _line = [];
    }
}
