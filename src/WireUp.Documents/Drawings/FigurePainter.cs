using System.Collections.Immutable;
using WireUp.Circuits.Places;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws volts or fault current as a band under the track. Track without power and rails inside turnouts have none.</summary>
internal sealed class FigurePainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas, FigureScale scale)
{
    private const string Layer = "figures";

    /// <summary>The step is looked up this often along the rails; between two places it changes in the middle.</summary>
    private const double LookMetres = 0.02;

    private const int MostLooks = 200;

    public void Paint(PowerMap map, double halfWidth)
    {
        List<(int Step, ImmutableArray<ScenePoint> Points)> parts = [.. Parts(map)];

        // The worst last, so that where tracks lie close it is not covered.
        foreach ((int step, ImmutableArray<ScenePoint> points) in parts.OrderBy(part => part.Step))
        {
            FigureStep look = scale.Steps[step];
            canvas.Add(new Shape.Line(Layer, points, false, ShapeStyle.Outline(look.Tint, 2 * halfWidth * look.Width)));
            if (look.Hatch is { } hatch)
            {
                ImmutableArray<ScenePoint> strokes = [.. Hatch.Strokes(points, halfWidth * look.Width, hatch)];
                if (!strokes.IsEmpty) canvas.AddWithin(sheet.Window, new Shape.Strokes(Layer, strokes, ShapeStyle.Outline(SceneColours.Ink, 0.12)));
            }
        }
    }

    private IEnumerable<(int Step, ImmutableArray<ScenePoint> Points)> Parts(PowerMap map)
    {
        foreach (Piece piece in facts.Layout.Track.Where(piece => piece.PlacesMetres is not null))
        {
            foreach (Stretch<int> stretch in map.Of(piece.Id).SelectMany(Steps))
            {
                foreach (ImmutableArray<ScenePoint> part in Clip.Line(sheet.Line(Stretches.Line(facts, piece.Id, stretch)), sheet.Window))
                {
                    yield return (stretch.Value, part);
                }
            }
        }
    }

    private IEnumerable<Stretch<int>> Steps(FedStretch track)
    {
        int looks = Math.Clamp((int)Math.Ceiling(track.LengthMetres / LookMetres), 1, MostLooks);
        double from = track.FromMetres;
        int step = At(0);
        for (int i = 1; i <= looks; i++)
        {
            if (i < looks && At(i) == step) continue;
            double to = track.FromMetres + (track.LengthMetres * i / looks);
            yield return new(from, to, step);
            (from, step) = (to, At(i));
        }

        int At(int look) => scale.StepAt(track, track.FromMetres + (track.LengthMetres * Math.Min(look + 0.5, looks - 0.5) / looks));
    }
}
