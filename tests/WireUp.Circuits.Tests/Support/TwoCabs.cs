using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Four metres of track with a selector for two direct-current cabs, of 15 V and of 9 V.</summary>
internal static class TwoCabs
{
    internal static Layout Block() => new PlanBuilder().Control(ControlSystem.Direct)
        .Booster("cab-a").Booster("cab-b", volts: 9).District("a", "cab-a").District("b", "cab-b")
        .Run("a", "cab-a", "pa", 2).Run("b", "cab-b", "pb", 3)
        .Section("s", 4).Switch("B1", "cab-a", "cab-b")
        .Feeder("fb", "s", 1, "b", "pb").OnlyWhen("B1", "cab-b").Feeder("fa", "s", 1, "a", "pa").OnlyWhen("B1", "cab-a").Build();
}
