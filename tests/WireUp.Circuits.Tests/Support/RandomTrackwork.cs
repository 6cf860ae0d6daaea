using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Support;

/// <summary>
/// Small layouts drawn from a seed with every kind of trackwork, hand switches, switched feeders and bridged gaps, set at random.
/// </summary>
internal static class RandomTrackwork
{
    internal static (Layout Layout, PowerOptions Options) Make(int seed)
    {
        Random random = new(seed);
        PlanBuilder plan = new();
        plan.Booster("b0", 15, 0.1).District("d0", "b0", 0.05).Booster("b1", 14, 0.2).District("d1", "b1", 0.03);
        plan.Switch("K1", "on", "off").Switch("B1", "d0", "d1", "off");
        List<string> ends = [];
        List<(string Name, double Metres)> places = [];
        foreach (int i in Enumerable.Range(0, random.Next(4, 9)))
        {
            double metres = Math.Round(0.3 + (2 * random.NextDouble()), 3);
            plan.Add(new Piece.Section(new($"s{i}"), Length.FromMeters(metres)) { LiftOut = random.Next(5) == 0 });
            places.Add(($"s{i}", metres));
            ends.AddRange([$"s{i}.a", $"s{i}.b"]);
        }

        foreach (int i in Enumerable.Range(0, random.Next(1, 4)))
        {
            Piece piece = Trackwork(random, new($"W{i}"));
            plan.Add(piece);
            ends.AddRange(piece.Ends.Select(end => end.ToString()));
            if (piece.PlacesMetres is { } metres)
            {
                places.Add((piece.Id.Name, metres));
            }
        }

        while (ends.Count > 3)
        {
            plan.Join(Draw(random, ends), Draw(random, ends), random.Next(6) == 0 ? (RailSet)random.Next(1, 4) : RailSet.None);
        }

        AddWiring(plan, random, places);
        Layout layout = plan.Build();
        (string Name, double Metres) at = places[random.Next(places.Count)];
        return (layout, new()
        {
            Loads = [new(new(new(at.Name), at.Metres / 3), ElectricCurrent.FromAmperes(0.4))],
            Probes = [.. places.Select(place => new TrackPlace(new(place.Name), place.Metres / 2))],
            Turnouts = Stand(random, layout),
        });
    }

    private static void AddWiring(PlanBuilder plan, Random random, List<(string Name, double Metres)> places)
    {
        foreach (int i in Enumerable.Range(0, random.Next(2, 7)))
        {
            (string name, double metres) = places[random.Next(places.Count)];
            string district = $"d{random.Next(2)}";
            plan.Feeder($"f{i}", name, Math.Round(metres * random.NextDouble(), 3), district, $"b{district[1]}");
            if (random.Next(3) == 0)
            {
                plan.OnlyWhen("B1", district);
            }
        }

        (string Name, double Metres) cut = places[0];
        plan.Cut(cut.Name, cut.Metres / 4, (RailSet)random.Next(1, 4), new Setting(new("K1"), "on"));
    }

    private static Piece Trackwork(Random random, PieceId id)
    {
        Length length = Length.FromMillimeters(random.Next(2) * 200);
        FrogFeed feed = (FrogFeed)random.Next(3);
        FrogKind frog = (FrogKind)random.Next(3);
        return random.Next(8) switch
        {
            0 => new Piece.Turnout(id, (TurnoutHand)random.Next(3), FrogKind.Isolated) { HeelInFrog = true, Feed = feed, Length = length },
            1 => new Piece.Turnout(id, (TurnoutHand)random.Next(3), frog) { Stub = random.Next(2) == 0, PowerRouting = frog == FrogKind.Insulated, Length = length },
            2 => new Piece.MultiTurnout(id, random.Next(3, 6), frog) { Feed = feed, Length = length },
            3 => new Piece.Crossing(id, Angle.FromDegrees(30), frog) { Feed = feed, OppositePhase = random.Next(2) == 0, Length = length },
            4 => new Piece.Slip(id, random.Next(2) == 0, frog) { Feed = feed, Drive = (SlipDrive)random.Next(3), Length = length },
            5 => new Piece.Scissors(id, frog) { Feed = feed, Length = length },
            6 => new Piece.Turntable(id, random.Next(2, 7), Length.FromMillimeters(300)) { Feed = (BridgeFeed)random.Next(3) },
            _ => new Piece.TransferTable(id, random.Next(1, 4), Length.FromMillimeters(300)) { Feed = random.Next(2) == 0 ? BridgeFeed.Wires : BridgeFeed.Roads },
        };
    }

    private static ImmutableSortedDictionary<PieceId, string> Stand(Random random, Layout layout)
    {
        RailGraph graph = RailGraph.Build(layout);
        return layout.Track.Select(piece => piece.Id).Concat(layout.Wiring.Switches.Select(item => item.Name))
            .Select(owner => (Owner: owner, Positions: graph.PositionsOf(owner)))
            .Where(pair => !pair.Positions.IsEmpty)
            .ToImmutableSortedDictionary(pair => pair.Owner, pair => pair.Positions[random.Next(pair.Positions.Length)]);
    }

    private static string Draw(Random random, List<string> ends)
    {
        int at = random.Next(ends.Count);
        string end = ends[at];
        ends.RemoveAt(at);
        return end;
    }
}
