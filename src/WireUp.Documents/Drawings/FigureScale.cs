using System.Collections.Immutable;
using System.Globalization;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents.Drawings;

/// <summary>One step of a scale: the worse, the darker and the wider; the two worst are hatched as well.</summary>
/// <param name="Words">What it means, with its numbers.</param>
/// <param name="Width">Width of its band over the width of a district's.</param>
/// <param name="Tint">Its colour.</param>
/// <param name="Hatch">Its hatch, if any.</param>
internal sealed record FigureStep(string Words, double Width, SceneColour Tint, HatchKind? Hatch);

/// <summary>The five steps in which a drawing shows volts or fault current.</summary>
internal sealed class FigureScale
{
    private static readonly ImmutableArray<double> DropParts = [0.25, 0.5, 0.75, 1];
    private static readonly ImmutableArray<double> TripParts = [4, 2, 1];

    private readonly DrawnFigure _figure;
    private readonly ImmutableArray<double> _limits;

    public FigureScale(DrawnFigure figure, Layout layout)
    {
        _figure = figure;
        double good = Constants.FaultOverTripGood.Value;
        _limits = figure == DrawnFigure.Volts
            ? [.. DropParts.Select(part => part * layout.MaxDrop.DecimalFractions)]
            : [.. TripParts.Select(part => part * good), 1];
        Steps = [.. Enumerable.Range(0, _limits.Length + 1).Select(Step)];
    }

    /// <summary>The steps from the best to the worst.</summary>
    public ImmutableArray<FigureStep> Steps { get; }

    /// <summary>The step of a place.</summary>
    public int StepAt(FedStretch track, double metres)
    {
        PlacePower place = track.At(metres);
        double value = _figure == DrawnFigure.Volts ? place.Drop.DecimalFractions : place.FaultCurrent / track.Trip;
        int step = 0;
        while (step < _limits.Length && (_figure == DrawnFigure.Volts ? value > _limits[step] : value < _limits[step])) step++;
        return step;
    }

    private FigureStep Step(int step)
    {
        double worse = (double)step / _limits.Length;
        HatchKind? hatch = step == _limits.Length ? HatchKind.Crosses : step == _limits.Length - 1 ? HatchKind.Ladder : null;
        return new(_figure == DrawnFigure.Volts ? DropWords(step) : FaultWords(step), 0.85 + (0.95 * worse), SceneColours.Purple.Tint(0.18 + (0.77 * worse)), hatch);
    }

    private string DropWords(int step) => step == 0 ? $"drop up to {Percent(_limits[0])}"
        : step == _limits.Length ? $"more than the {Percent(_limits[^1])} allowed"
        : $"up to {Percent(_limits[step])}";

    private string FaultWords(int step) => step == 0 ? $"fault current {Times(_limits[0])} × trip or more"
        : step == _limits.Length ? "below trip: a coin does not trip the breaker"
        : $"{Times(_limits[step])} to {Times(_limits[step - 1])} × trip";

    private static string Percent(double part) => string.Create(CultureInfo.InvariantCulture, $"{part * 100:0.##} %");

    private static string Times(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
