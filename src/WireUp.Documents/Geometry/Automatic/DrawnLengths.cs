using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// How long track is drawn, in units of track spacing. Long sections are drawn shorter than in proportion and short ones
/// longer, so that a yard stays readable beside a main line of a hundred metres.
/// </summary>
internal sealed class DrawnLengths
{
    // Drawn length of a section of median length: on a large layout, and at most on one of a few sections.
    private const double MedianUnitsOfMany = 2.2, MedianUnitsOfFew = 8, Many = 40;
    private const double Exponent = 0.6;
    private const double ShortestSection = 1, LongestSection = 24;

    // Drawn length of a joint between two turnouts without track between.
    private const double DirectJoint = 0.4;

    // A run that comes back to where it left must have room to turn round.
    private const double ShortestLoop = 11;

    private readonly double _medianMetres, _medianUnits;

    /// <summary>Measures of a layout.</summary>
    public DrawnLengths(Layout layout)
    {
        double[] lengths = [.. layout.Track.OfType<Piece.Section>().Select(section => section.Length.Meters).Where(metres => metres > 0).Order()];
        _medianMetres = lengths.Length > 0 ? lengths[lengths.Length / 2] : 1;
        _medianUnits = Math.Clamp(MedianUnitsOfMany * Math.Sqrt(Many / Math.Max(lengths.Length, 1)), MedianUnitsOfMany, MedianUnitsOfFew);
    }

    /// <summary>One unit of track spacing, in metres of the plan: a section of median length keeps its true length.</summary>
    public double UnitMetres => _medianMetres / _medianUnits;

    /// <summary>Drawn length of a section.</summary>
    public double Of(Piece.Section section) =>
        Math.Clamp(_medianUnits * Math.Pow(section.Length.Meters / _medianMetres, Exponent), ShortestSection, LongestSection);

    /// <summary>Drawn length of a run.</summary>
    public double Of(NetworkRun run)
    {
        double length = run.Sections.IsEmpty ? DirectJoint : run.Sections.Sum(step => Of(step.Section));
        return run.From == run.To ? Math.Max(length, ShortestLoop) : length;
    }
}
