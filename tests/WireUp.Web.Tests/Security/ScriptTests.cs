using WireUp.Web.Tests.Support;

namespace WireUp.Web.Tests.Security;

[Collection(BrowserTests.Name)]
public sealed class ScriptTests(Browser browser)
{
    private const string Attack = "<img src=x onerror=window.hit=1><script>window.hit=1</script>";

    [Theory]
    [InlineData("check")]
    [InlineData("text")]
    [InlineData("sheet")]
    public async Task A_script_in_a_file_is_shown_as_words_and_never_run(string view)
    {
        await using Served served = await Served.StartAsync();
        await File.WriteAllTextAsync(served.PathOf("bad.layout.yaml"), $$"""
            wireup: 1
            name: '{{Attack}}'
            scale: HO
            longest-train: 1 m
            shortest-pickup: 40
            track:
              "{{Attack}}": { length: 1000 }
              spur: { length: 1000 }
            joined: []

            """, TestContext.Current.CancellationToken);
        await using Seen seen = await browser.OpenAsync();
        await seen.Page.GotoAsync(served.Address.ToString());
        await seen.GoAsync(served, "bad", view);
        await seen.Page.WaitForSelectorAsync(view == "text" ? "textarea" : "text=Nothing is lost");
        Assert.Contains("onerror", view == "text" ? await seen.Page.Locator("textarea").InputValueAsync() : await seen.Page.Locator("main").InnerTextAsync(), StringComparison.Ordinal);
        Assert.False(await seen.Page.EvaluateAsync<bool>("'hit' in window"));
        Assert.Equal(0, await seen.Page.Locator("main img").CountAsync());
    }

    [Fact]
    public async Task A_script_in_the_railways_name_is_words_in_the_list_and_in_the_drawing()
    {
        await using Served served = await Served.StartAsync("balloon-loop");
        string file = served.PathOf("balloon-loop.layout.yaml");
        string text = await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(file, string.Join('\n', text.Split('\n').Select(line => line.StartsWith("name:", StringComparison.Ordinal) ? $"name: '{Attack}'" : line)), TestContext.Current.CancellationToken);
        await using Seen seen = await browser.OpenAsync();
        await seen.Page.GotoAsync(served.Address.ToString());
        Assert.Contains(Attack, await seen.Page.Locator("main").InnerTextAsync(), StringComparison.Ordinal);
        await seen.GoAsync(served, "balloon-loop", "check");
        await seen.DrawnAsync();
        Assert.Contains(Attack, await seen.Page.Locator(".surface svg title").First.TextContentAsync() ?? "", StringComparison.Ordinal);
        Assert.False(await seen.Page.EvaluateAsync<bool>("'hit' in window"));
    }

    [Fact]
    public async Task The_content_policy_stops_a_script_that_is_put_into_the_page()
    {
        await using Served served = await Served.StartAsync();
        await using Seen seen = await browser.OpenAsync();
        await seen.Page.GotoAsync(served.Address.ToString());
        await seen.Page.EvaluateAsync("() => { const bad = document.createElement('script'); bad.textContent = 'window.hit = 1'; document.body.append(bad); const img = document.createElement('div'); img.innerHTML = '<img src=x onerror=\"window.hit = 1\">'; document.body.append(img); }");
        await seen.ComplainsAsync("Content Security Policy");
        Assert.False(await seen.Page.EvaluateAsync<bool>("'hit' in window"));
    }

    [Fact]
    public async Task A_drawing_laid_under_the_plan_runs_and_loads_nothing_neither_there_nor_opened_by_itself()
    {
        await using Served served = await Served.StartAsync();
        await File.WriteAllTextAsync(served.PathOf("attic.layout.yaml"), "wireup: 1\nname: attic\nlongest-train: 1 m\npicture: { file: attic.picture.svg, width: 2 m }\ntrack:\n", TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(served.PathOf("attic.picture.svg"), $$"""
            <svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="200" height="100" onload="document.documentElement.setAttribute('data-hit', '1')">
              <script>document.documentElement.setAttribute('data-hit', '1'); fetch('{{served.Address}}hit-fetch')</script>
              <image xlink:href="{{served.Address}}hit-image" width="10" height="10"/>
              <style>@import url('{{served.Address}}hit-style');</style>
              <foreignObject width="50" height="50"><body xmlns="http://www.w3.org/1999/xhtml"><img src="{{served.Address}}hit-foreign" onerror="this.parentNode.setAttribute('data-hit', '1')"/></body></foreignObject>
              <rect width="200" height="100" fill="#0000ff"/>
            </svg>
            """, TestContext.Current.CancellationToken);
        await using Seen seen = await browser.OpenAsync();
        List<string> answered = [];
        seen.Page.Response += (_, response) => answered.Add(response.Url);
        await seen.GoAsync(served, "attic", "draw");
        await seen.Page.WaitForFunctionAsync("async () => { const image = document.querySelector('.surface image'); if (!image) return false; const look = new Image(); look.src = image.getAttribute('href'); await look.decode(); return look.naturalWidth > 0; }");
        Assert.Equal(0, await seen.Page.Locator("[data-hit]").CountAsync());

        await seen.Page.GotoAsync(new Uri(served.Address, "/pictures/attic.picture.svg").ToString(), new() { WaitUntil = Microsoft.Playwright.WaitUntilState.Load });
        await seen.Page.WaitForSelectorAsync("rect[fill='#0000ff']");
        Assert.Equal(0, await seen.Page.Locator("[data-hit]").CountAsync());
        using HttpClient client = new();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(served.Address, "/pictures/attic.picture.svg"), TestContext.Current.CancellationToken);
        Assert.Equal("image/svg+xml", answer.Content.Headers.ContentType?.MediaType);
        string policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.EndsWith("sandbox", policy, StringComparison.Ordinal);
        Assert.Contains(answered, url => url.Contains("attic.picture.svg", StringComparison.Ordinal));
        Assert.DoesNotContain(answered, url => url.Contains("hit-", StringComparison.Ordinal));
    }
}
