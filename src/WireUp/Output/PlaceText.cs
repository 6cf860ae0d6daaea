using System.Globalization;
using Spectre.Console;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Rails.Routes;

namespace WireUp.Output;

/// <summary>Places and routes for the terminal.</summary>
internal static class PlaceText
{
    /// <summary>A block for each place and each route.</summary>
    public static void Show(Terminal terminal, IReadOnlyCollection<PlaceReport> places, IReadOnlyCollection<RoutePower> routes, LengthStyle lengths)
    {
        foreach (PlaceReport place in places)
        {
            Show(terminal, place, lengths);
        }

        foreach (RoutePower route in routes)
        {
            Show(terminal, route, lengths);
        }
    }

    /// <summary>A kind of neighbour as in results.</summary>
    public static string Word(NeighbourKind kind) => kind switch
    {
        NeighbourKind.Feeder => "feeder",
        NeighbourKind.Gap => "gap",
        NeighbourKind.Joint => "joint",
        NeighbourKind.EndOfTrack => "end-of-track",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of neighbour"),
    };

    private static void Show(Terminal terminal, PlaceReport place, LengthStyle lengths)
    {
        terminal.Markup($"[bold]{Words.Plain(lengths.Say(place.At))}[/]");
        if (place is { Power: { } power, Track: { } track, OpenVolts: { } open, FaultOverTrip: { } ratio })
        {
            Line(terminal, "district", $"{track.District}, from booster {track.Booster}");
            Line(terminal, "no load", Words.Number(open.Volts, "V"));
            Line(terminal, "design load", $"{Words.Number(power.Volts.Volts, "V")}, {Words.Number(power.Drop.Percent, "%", 1)} below the booster's {Words.Number(track.SourceVolts.Volts, "V")}");
            Line(terminal, "loop", $"{Words.Number(power.Loop.Ohms, "Ω", 3)}, out and back from the booster");
            Line(terminal, "fault current", $"{Words.Number(power.FaultCurrent.Amperes, "A", 1)}, {ratio.ToString("F1", CultureInfo.InvariantCulture)} × the trip current of {Words.Number(track.Trip.Amperes, "A", 1)}"
                + (ratio < 1 ? ": the breaker does not trip" : ""));
        }
        else
        {
            Line(terminal, "no power", "no source reaches this place through both rails as turnouts and switches stand");
        }

        foreach (PlaceNeighbour neighbour in place.Neighbours)
        {
            Line(terminal, neighbour.Metres < 0 ? "towards end a" : neighbour.Metres > 0 ? "towards end b" : "here", Neighbour(neighbour, lengths));
        }
    }

    private static string Neighbour(PlaceNeighbour neighbour, LengthStyle lengths)
    {
        string what = neighbour.Kind switch
        {
            NeighbourKind.Feeder => $"feeder {neighbour.Name}",
            NeighbourKind.Gap => "a gap",
            NeighbourKind.Joint => $"joint with {neighbour.Name}",
            _ => "the end of track",
        };
        return neighbour.Metres == 0 ? what : $"{what} after {lengths.Say(Math.Abs(neighbour.Metres))}";
    }

    private static void Line(Terminal terminal, string name, string text) => terminal.Markup($"  {name,-15}{Words.Plain(text)}");

    private static void Show(Terminal terminal, RoutePower route, LengthStyle lengths)
    {
        terminal.Markup($"[bold]Route {Words.Plain(lengths.Retell(Short(route.Route)))}[/], {lengths.Say(route.Route.LengthMetres)}");
        if (route.Route.Settings.Any())
        {
            terminal.Markup($"  with {Words.Plain(string.Join(", ", route.Route.Settings.Select(setting => $"{setting.Owner} {setting.Position}")))}");
        }

        Table table = Tables.Ruled("from", "piece", "district", "lowest volts", "at", "lowest fault", "at");
        for (int i = 0; i < route.Route.Steps.Length; i++)
        {
            AddStep(table, route, i, lengths);
        }

        terminal.Show(table);
        if (route is { LowestVolts: { } volts, LowestFault: { } fault })
        {
            terminal.Markup($"  worst on this route: {Words.Number(volts.Volts.Volts, "V")} ({Words.Number(volts.Drop.Percent, "%", 1)} drop) at {Words.Plain(lengths.Say(volts.At))}, "
                + $"{Words.Number(fault.FaultCurrent.Amperes, "A", 1)} fault current at {Words.Plain(lengths.Say(fault.At))}");
        }
    }

    private static void AddStep(Table table, RoutePower route, int number, LengthStyle lengths)
    {
        RouteStep step = route.Route.Steps[number];
        RouteStretch[] stretches = [.. route.Stretches.Where(stretch => stretch.Step == number)];
        FedStretch[] fed = [.. stretches.Select(stretch => stretch.Track).OfType<FedStretch>()];
        if (step.FromPlaceMetres is null)
        {
            return;
        }

        string from = lengths.Say(stretches[0].FromMetres);
        string piece = Words.Plain(step.Piece.Name);
        if (fed.Length == 0)
        {
            table.AddRow(from, piece, "no power", "", "", "", "");
            return;
        }

        PlacePower volts = fed.Select(track => track.LowestVolts).MinBy(place => place.Volts.Volts)!;
        PlacePower fault = fed.Select(track => track.LowestFault).MinBy(place => place.FaultCurrent.Amperes)!;
        table.AddRow(from, piece, Words.Plain(string.Join(", ", fed.Select(track => track.District).Distinct())),
            Words.Number(volts.Volts.Volts, "V"), lengths.Say(volts.At.MetresFromA),
            Words.Number(fault.FaultCurrent.Amperes, "A", 1), lengths.Say(fault.At.MetresFromA));
    }

    /// <summary>A long route by its first and last pieces.</summary>
    private static string Short(TrackRoute route) => route.Steps.Length <= 12 ? route.ToString()
        : $"{new TrackRoute(route.Steps[..5])} > … > {new TrackRoute(route.Steps[^5..])}";
}
