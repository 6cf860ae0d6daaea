using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>What each position of a hand switch, and each position of trackwork that a feeder or gap names, does.</summary>
internal static class SettingEffects
{
    /// <summary>Every position of every switch, then those of trackwork that something depends on.</summary>
    public static IEnumerable<SettingEffect> Of(Layout layout)
    {
        Wiring wiring = layout.Wiring;
        IEnumerable<Setting> ofSwitches = wiring.Switches.SelectMany(item => item.Positions.Select(position => new Setting(item.Name, position)));
        IEnumerable<Setting> named = wiring.Feeders.Select(feeder => feeder.When).Concat(wiring.Gaps.Select(gap => gap.BridgedWhen)).OfType<Setting>();
        return ofSwitches.Concat(named).Distinct().Select(setting => new SettingEffect(setting, [.. Effects(layout, setting)]));
    }

    private static IEnumerable<string> Effects(Layout layout, Setting setting)
    {
        foreach (Feeder feeder in layout.Wiring.Feeders.Where(feeder => feeder.When == setting))
        {
            yield return $"connects feeder {feeder.Name} of {feeder.District} to {PlaceWords.Place(feeder.At, layout.Lengths)}";
        }

        foreach (Gap gap in layout.Wiring.Gaps.Where(gap => gap.BridgedWhen == setting))
        {
            yield return $"bridges the gap at {PlaceWords.Place(gap.At, layout.Lengths)}, {RailWords(gap.Rails, layout.Control)}";
        }
    }

    private static string RailWords(RailSet rails, ControlSystem control)
    {
        (RailSide first, RailSide second) = RailSides.Of(control);
        return rails == RailSet.Both ? "both rails" : $"{RailSides.Word(rails == RailSet.Left ? first : second)} rail";
    }
}
