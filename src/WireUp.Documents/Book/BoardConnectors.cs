namespace WireUp.Documents.Book;

/// <summary>The connectors to buy for wires that pass from one board to another, so that the boards can come apart.</summary>
internal static class BoardConnectors
{
    /// <summary>One item for each trip current that the connectors have to bear; none where the file describes no boards.</summary>
    public static IEnumerable<ShoppingItem> Of(BookFacts facts)
    {
        if (facts.Drawn.Geometry.Automatic || facts.Layout.Benchwork.Boards.Length < 2) return [];
        BoardMap map = BoardMap.Of(facts);
        HashSet<string> built = [.. facts.Schedule.Wires.Where(wire => wire.IsBuilt).Select(wire => wire.Id)];
        IEnumerable<(string District, string Words)> bus = map.Crossings.Where(crossing => !built.Contains($"{crossing.Line}/A"))
            .Select(crossing => (crossing.District, $"{crossing.Line} ({crossing.Board} to {crossing.Other})"));
        IEnumerable<(string District, string Words)> feeders = map.FeedersAcross.Where(across => !built.Contains($"{across.Feeder.Name}/A"))
            .Select(across => (across.Feeder.District, $"{across.Feeder.Name} ({across.Other} to {across.Board})"));
        return bus.Concat(feeders)
            .GroupBy(place => facts.Wiring.Districts.First(district => district.Name == place.District).Trip.Amperes)
            .OrderBy(alike => alike.Key)
            .Select(alike => new ShoppingItem(
                Figure.Text($"Connector, two poles, plug and socket, for {alike.Key:0.##} A or more"),
                alike.Count(),
                "pcs",
                $"between boards: {string.Join(", ", alike.Select(place => place.Words))}"));
    }
}
