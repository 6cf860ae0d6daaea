using System.Globalization;
using WireUp.Circuits.Places;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Documents.Plots;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents;

/// <summary>Plots what a train finds along a route: volts above, fault current below, over the distance driven.</summary>
public static class RoutePlot
{
    private const double Width = 297, Height = 190, Left = 16, Right = 8, Foot = 0.3048;

    /// <summary>Room above the panel of volts, between it and that of fault currents, and below that.</summary>
    private const double Above = 31, Between = 19, Below = 19, VoltsShare = 67.0 / 121;

    private static readonly ShapeStyle Load = ShapeStyle.Outline(SceneColours.Blue, 0.5);
    private static readonly ShapeStyle NoLoad = ShapeStyle.Outline(SceneColours.Ink, 0.3, DashKind.Long);
    private static readonly ShapeStyle Allowed = ShapeStyle.Outline(SceneColours.Vermilion, 0.35, DashKind.Short);
    private static readonly ShapeStyle Twice = ShapeStyle.Outline(SceneColours.Ink, 0.3, DashKind.Dotted);

    /// <summary>The plot on one sheet.</summary>
    /// <param name="route">The route with its figures.</param>
    /// <param name="layout">The layout it belongs to.</param>
    /// <param name="geometry">Where its pieces lie, to name the boards that the route passes; null to leave them out.</param>
    public static Scene Draw(RoutePower route, Layout layout, PlanGeometry? geometry = null)
    {
        SheetBuilder canvas = new();
        Paint(canvas, (route, layout, geometry), new(0, 0, Width, Height));
        return new(Width, Height, canvas.Shapes) { Title = $"{layout.Name}, along a route" };
    }

    /// <summary>The plot within a box of a sheet.</summary>
    internal static void Paint(SheetBuilder canvas, (RoutePower Route, Layout Layout, PlanGeometry? Geometry) given, SceneBox box)
    {
        (RoutePower route, Layout layout, PlanGeometry? geometry) = given;
        RouteStretch[] fed = [.. route.Stretches.Where(stretch => stretch.Track is not null)];
        PlotAxis along = PlotAxis.Exactly(0, Math.Max(route.Route.LengthMetres, 1e-3), 12, layout.Lengths == LengthStyle.Feet ? Foot : 1);
        double allowed = 1 - layout.MaxDrop.DecimalFractions;
        double parting = box.Top + Above + (VoltsShare * (box.Height - Above - Between - Below));
        PlotPanel volts = new(canvas, new(box.Left + Left, box.Top + Above, box.Right - Right, parting), along, VoltsAxis(fed, allowed));
        PlotPanel fault = new(canvas, new(box.Left + Left, parting + Between, box.Right - Right, box.Bottom - Below), along, FaultAxis(fed));

        RouteGround ground = new(canvas, route, layout, geometry);
        ground.Paint(volts, names: true);
        ground.Paint(fault, names: false);
        volts.PaintAxes("volts between the rails", null);
        fault.PaintAxes("fault current of a coin across the rails, ampere", $"{PlaceWords.Unit(layout.Lengths)} from the start of the route");
        Paint(fed, volts, fault, allowed);
        PaintWords(canvas, route, layout, box);
    }

    private static void Paint(RouteStretch[] fed, PlotPanel volts, PlotPanel fault, double allowed)
    {
        volts.Paint("no load", RouteCurve.Of(fed, (track, metres) => track.OpenVolts(metres).Volts, bridged: true), NoLoad);
        volts.Paint("allowed", RouteCurve.Of(fed, (track, _) => track.SourceVolts.Volts * allowed, bridged: true), Allowed);
        volts.Paint("design load", RouteCurve.Of(fed, (track, metres) => track.At(metres).Volts.Volts), Load);
        fault.Paint("trip", RouteCurve.Of(fed, (track, _) => track.Trip.Amperes, bridged: true), Allowed);
        fault.Paint("twice trip", RouteCurve.Of(fed, (track, _) => track.Trip.Amperes * Constants.FaultOverTripGood.Value, bridged: true), Twice);
        fault.Paint("fault current", RouteCurve.Of(fed, Fault), Load);
    }

    private static PlotAxis VoltsAxis(RouteStretch[] fed, double allowed)
    {
        if (fed.Length == 0) return new(0, 1, 0.2);
        double lowest = fed.Min(stretch => Math.Min(stretch.Track!.LowestVolts.Volts.Volts, stretch.Track.SourceVolts.Volts * allowed));
        double highest = fed.Max(stretch => Math.Max(
            stretch.Track!.OpenVolts(stretch.Track.FromMetres).Volts, stretch.Track.OpenVolts(stretch.Track.ToMetres).Volts));
        double room = 0.05 * Math.Max(0.1, highest - lowest);
        return PlotAxis.Holding(lowest - room, highest + (2 * room), 6);
    }

    private static PlotAxis FaultAxis(RouteStretch[] fed) => fed.Length == 0 ? new(0, 1, 0.2) : PlotAxis.Holding(0, fed.Max(stretch => Math.Max(
        stretch.Track!.Trip.Amperes * Constants.FaultOverTripGood.Value,
        Math.Max(Fault(stretch.Track, stretch.Track.FromMetres), Fault(stretch.Track, stretch.Track.ToMetres)))), 5);

    private static double Fault(FedStretch track, double metres) => track.At(metres).FaultCurrent.Amperes;

    private static void PaintWords(SheetBuilder canvas, RoutePower route, Layout layout, SceneBox box)
    {
        canvas.Add(new Shape.Text("title", new(box.Left + Left, box.Top + 9), Shortened(layout.Name, 4, box.Width - Left - Right, bold: true), new(4, SceneColours.Ink) { Bold = true }));
        string set = string.Join(", ", route.Route.Settings.Select(setting => $"{setting.Owner} {setting.Position}"));
        string way = $"{route.Route.Steps[0].Piece} to {route.Route.Steps[^1].Piece}{(set.Length > 0 ? $", with {set}" : "")}";
        canvas.Add(new Shape.Text("title", new(box.Left + Left, box.Top + 15), Shortened(way, 2.6, box.Width - Left - Right), new(2.6, SceneColours.Ink)));
        double x = box.Left + Left, y = box.Bottom - 5;
        string drop = string.Create(CultureInfo.InvariantCulture, $"lowest volts allowed ({layout.MaxDrop.Percent:0.#} % drop); trip current");
        foreach ((ShapeStyle style, string words) in new[]
        {
            (Load, "under the design load; fault current"), (NoLoad, "without load"), (Allowed, drop),
            (Twice, string.Create(CultureInfo.InvariantCulture, $"{Constants.FaultOverTripGood.Value:0.#} × trip current")),
        })
        {
            double needed = 11.5 + SceneText.Width(words, 2.3);
            if (x + needed > box.Right - Right) (x, y) = (box.Left + Left, y + 4);
            canvas.Add(new Shape.Line("legend", [new(x, y - 0.8), new(x + 10, y - 0.8)], false, style));
            canvas.Add(new Shape.Text("legend", new(x + 11.5, y), words, new(2.3, SceneColours.Ink)));
            x += needed + 6;
        }

        canvas.Add(new Shape.Circle("legend", new(x + 1, y - 0.8), 0.7, ShapeStyle.Area(SceneColours.Ink)));
        canvas.Add(new Shape.Text("legend", new(x + 3, y), "feeder", new(2.3, SceneColours.Ink)));
    }

    private static string Shortened(string words, double size, double room, bool bold = false)
    {
        if (SceneText.Width(words, size, bold) <= room) return words;
        int length = words.Length;
        while (length > 0 && SceneText.Width($"{words[..length]} …", size, bold) > room) length--;
        return $"{words[..length]} …";
    }
}
