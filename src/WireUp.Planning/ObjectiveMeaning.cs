using System.Collections.Frozen;

namespace WireUp.Planning;

/// <summary>What each objective counts, and how its bound is known, in words a builder understands.</summary>
public static class ObjectiveMeaning
{
    private static readonly FrozenDictionary<string, string> Meanings = new Dictionary<string, string>
    {
        ["reversing-sections"] = "Reversing sections to add, each with a device of its own. The bound is proved by the exact choice among the candidates considered.",
        ["reversing-gaps"] = "Rails to cut for reversing sections, two at every new border. The bound is proved by the exact choice among the candidates considered, with no more sections than needed.",
        ["reversing-borders"] = "New double gaps of reversing sections. The bound is the fewest with which any sections, of whatever shape, free the track of conflict.",
        ["districts"] = "Power districts to add. The bound is what device current, trains that meet, reversing sections and wishes ask for.",
        ["district-boundaries"] = "Cost of dividing the track: one a boundary, more for a saw cut or a place close to a turnout, and what lengths differ. "
            + "The bound is that of the linear programme over all connected districts, for this number of districts.",
        ["feeders"] = "Feeders to add. The bound is the fewest with which no rail is too far from one and, where volts or fault current ask for more, the fewest that these need with the bus where it is laid.",
        ["boosters"] = "Boosters to add. The bound is the fewest that can carry the districts of this plan, by rule and where trains meet, none of them hanging on two; drop and fault current can ask for more.",
        ["block-gaps"] = "Gaps to add for the blocks that were asked for. The number is exact: with as many blocks no fewer gaps will do.",
        ["bus-copper"] = "Copper of the new bus in cubic centimetres, both wires of each pair. The bound takes for each run the least that it can add to drop and fault current.",
        ["bus-price"] = "Price of the new bus, both wires of each pair, in the money of --wire. The bound takes for each run the least that it can add to drop and fault current.",
        ["bus-metres"] = "Way of the new bus along the track in metres, without slack. No tree to the same taps is shorter than the bound, which is exact for few taps.",
    }.ToFrozenDictionary();

    /// <summary>The meaning of an objective.</summary>
    /// <param name="objective">Its name, one that a plan gives.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such objective.</exception>
    public static string Of(string objective) => Meanings.TryGetValue(objective, out string? meaning)
        ? meaning
        : throw new ArgumentOutOfRangeException(nameof(objective), objective, "not an objective");
}
