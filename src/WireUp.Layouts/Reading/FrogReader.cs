namespace WireUp.Layouts.Reading;

/// <summary>A frog and who feeds it.</summary>
internal readonly record struct ReadFrog(FrogKind Kind, FrogFeed Feed);

/// <summary>Reads the keys of frogs that every kind of trackwork has.</summary>
internal sealed class FrogReader(ReadContext context, LayoutDefaults defaults)
{
    /// <summary>The frogs of a piece; an insulated one carries no current, so nobody feeds it.</summary>
    public ReadFrog Read(MapReader map)
    {
        FrogKind kind = map.Word("frog", Words.Frog) ?? defaults.Frog;
        FrogFeed feed = map.Word("frog-feed", Words.FrogFeed) ?? FrogFeed.None;
        if (feed != FrogFeed.None && kind == FrogKind.Insulated)
        {
            string word = Words.Of(Words.FrogFeed, feed);
            string frog = map.Has("frog") ? "a frog that is insulated" : "the frog is insulated by default, and such a frog";
            context.Add(LayoutRules.Contradiction, map.Find("frog-feed")!.Value.Start, word, $"{frog} carries no current and is not fed by a {word}",
                $"\"frog: isolated\" beside \"frog-feed: {word}\", or no \"frog-feed\"");
        }

        return new ReadFrog(kind, feed);
    }

    /// <summary>The kind of frog in words, with the reason where the piece itself does not say it.</summary>
    public static string InWords(MapReader map, FrogKind kind) => Words.Of(Words.Frog, kind) + (map.Has("frog") ? "" : " by default");

    /// <summary>Reports a key that says something only where another is said, unless it is.</summary>
    public void OnlyWhere(bool holds, MapReader map, string key, string why, string right)
    {
        if (!holds && map.Find(key) is { } entry)
        {
            context.Add(LayoutRules.Contradiction, entry.Key.Start, key, why, right);
        }
    }

    /// <summary>Whether inner rails get current through their own blades only; so it can be with insulated frogs.</summary>
    public bool PowerRouting(MapReader map, FrogKind kind)
    {
        bool routing = map.Flag("power-routing") ?? false;
        if (routing)
        {
            OnlyWhere(kind == FrogKind.Insulated, map, "power-routing",
                $"\"power-routing\" tells two kinds of turnout with insulated frogs apart, but the frog is {InWords(map, kind)}",
                "\"frog: insulated\" beside it, or \"frog: live\" alone, which routes power by itself");
        }

        return routing;
    }
}
