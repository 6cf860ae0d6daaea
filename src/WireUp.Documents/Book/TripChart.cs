using System.Collections.Immutable;
using WireUp.Circuits.Devices;
using WireUp.Documents.Drawings;
using WireUp.Documents.Plots;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>Who acts first: current and time of every breaker, of its booster and the rating of the supply, one chart a booster, both axes logarithmic.</summary>
internal static class TripChart
{
    private const double Height = 66, LongestSeconds = 20, ShortestSeconds = 0.001;
    private static readonly DashKind[] Dashes = [DashKind.Solid, DashKind.Long, DashKind.Short, DashKind.Dotted];

    public static void Write(BookFacts facts, BookFlow flow)
    {
        Booster[] boosters = [.. facts.Wiring.Boosters.Where(booster => Districts(facts, booster).Length > 0)];
        if (boosters.Length == 0) return;
        flow.Ensure(Height + 30);
        flow.Subheading("Who acts first");
        flow.Intro(
            "Time until a device opens, over the current through it: it never opens left of its line. A breaker’s line should lie left of its "
            + "booster’s and below it. The thick part of a breaker’s line holds the currents of a short in its district, from a coin at the worst place to one "
            + "right behind the breaker. The booster carries what its other districts draw besides. The supply’s rating is no trip: what it does beyond it is its maker’s to say.");
        foreach (Booster booster in boosters) flow.Draw(Height, (page, box) => Draw(facts, facts.Protection, booster, page, box));
    }

    private static District[] Districts(BookFacts facts, Booster booster) => [.. facts.Wiring.Districts.Where(district =>
        district.Booster == booster.Name && facts.Plan.Power.Districts.Any(solved => solved.District == district.Name))];

    private static void Draw(BookFacts facts, ProtectionReport protection, Booster booster, BookPage page, SceneBox box)
    {
        District[] districts = Districts(facts, booster);
        Supply? supply = facts.Wiring.Supplies.FirstOrDefault(one => one.Name == booster.Supply);
        double least = districts.Min(district => district.Trip.Amperes), most = districts.Max(district => MostAmps(protection, district));
        PlotAxis amps = PlotAxis.Decades(Math.Min(0.7 * least, booster.Amps.Amperes), 1.3 * Math.Max(most, booster.Amps.Amperes));
        SheetBuilder canvas = new();
        PlotPanel panel = new(canvas, new(box.Left + 14, box.Top + 10, box.Right - 52, box.Bottom - 12), amps, PlotAxis.Decades(ShortestSeconds, LongestSeconds));
        panel.PaintAxes($"{booster.Name}: seconds until open", "ampere");
        ImmutableArray<ChartLine> lines = [.. Breakers(facts, protection, districts), .. Behind(booster, supply)];
        foreach ((int index, ChartLine line) in lines.Index())
        {
            panel.Paint("devices", [line.Curve(amps.To)], line.Style);
            if (line.Thick is var (from, to)) panel.Paint("shorts", [line.Curve(to, from)], line.Style with { WidthMillimetres = 1.1 });
            double y = box.Top + 12.5 + (index * 4.4);
            canvas.Add(new Shape.Line("legend", [new(box.Right - 49, y), new(box.Right - 41, y)], false, line.Style));
            canvas.Add(new Shape.Text("legend", new(box.Right - 39.5, y + 0.8), Fitted(line.Words, 39), new(2.2, SceneColours.Ink)));
        }

        page.Add(canvas.Shapes);
    }

    /// <summary>Breakers that are alike share a line.</summary>
    private static IEnumerable<ChartLine> Breakers(BookFacts facts, ProtectionReport protection, District[] districts)
    {
        int dash = 0;
        foreach (IGrouping<string, District> alike in districts.GroupBy(district => string.Join(' ', Points(Protection.CurveOf(district)))))
        {
            District first = alike.First();
            string letters = string.Join(' ', alike.Select(district => facts.Drawn.Letters.Of(district.Name)));
            double from = alike.Min(district => Of(protection, district).LeastFault.Amperes), to = alike.Max(district => MostAmps(protection, district));
            yield return new($"{letters}: trips at {Figure.Amps(first.Trip)}", Protection.CurveOf(first), ShapeStyle.Outline(SceneColours.Blue, 0.4, Dashes[dash++ % Dashes.Length]))
            {
                Thick = (from, to),
            };
        }
    }

    private static IEnumerable<ChartLine> Behind(Booster booster, Supply? supply)
    {
        yield return new($"booster: {Figure.Amps(booster.Amps)}", Protection.CurveOf(booster), ShapeStyle.Outline(SceneColours.Vermilion, 0.6));
        if (supply is null || supply.Output.Volts <= 0) yield break;
        double rated = (double)supply.Rating.Watts / supply.Output.Volts;
        yield return new(Figure.Text($"supply: rated {rated:0.#} A"), null, ShapeStyle.Outline(SceneColours.Ink, 0.3, DashKind.Short)) { At = rated };
    }

    private static IEnumerable<string> Points(TripCurve curve) => curve.Bends.Select(amps => Figure.Text($"{amps:R} {curve.SecondsAt(amps):R}"));

    private static double MostAmps(ProtectionReport protection, District district) => Of(protection, district).MostFault.Amperes;

    private static DistrictProtection Of(ProtectionReport protection, District district) => protection.Districts.First(one => one.District == district.Name);

    private static string Fitted(string words, double width)
    {
        TextStyle style = new(2.2, SceneColours.Ink);
        return TextFlow.Width(words, style) <= width ? words : TextFlow.Shorten(words, width, style);
    }

    /// <summary>A line of the chart: a device with a curve, or a current only.</summary>
    private sealed record ChartLine(string Words, TripCurve? Trip, ShapeStyle Style)
    {
        public (double From, double To)? Thick { get; init; }

        /// <summary>The current of a line that has no curve.</summary>
        public double At { get; init; }

        /// <summary>Down at the least current, then along the curve; or only a part of it.</summary>
        public ImmutableArray<(double X, double Y)> Curve(double to, double from = 0)
        {
            if (Trip is not { } trip) return [(At, LongestSeconds), (At, ShortestSeconds)];
            double start = Math.Max(from, trip.LeastAmps);
            (double, double)[] down = from > 0 ? [] : [(start, LongestSeconds)];
            return [.. down, (start, trip.SecondsAt(start)), .. trip.Bends.Where(amps => amps > start && amps < to).Select(amps => (amps, trip.SecondsAt(amps))), (Math.Max(to, start), trip.SecondsAt(Math.Max(to, start)))];
        }
    }
}
